import { forPerson, isShown } from "#shared/kitchen/alerts/shown.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { mayPutOff } from "#shared/kitchen/model/active-alert.ts";
import { standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { tooOld } from "#shared/kitchen/mixing/batches.ts";
import { designOf, kitchenOf, nowOf, type Self } from "./world.ts";
import { mix } from "./mixing.ts";
import { carry, isBusy, roomIn } from "./places.ts";
import { ask, pass, type Script } from "./scheduler.ts";
import { SECOND_MS } from "#shared/time.ts";

const LISTEN_MS = 15 * SECOND_MS;
/** How soon an alert is answered, s, by its class. */
const ANSWER_S = { urgent: [8, 40], prompt: [25, 150], note: [120, 600] } as const;

/** What somebody does about the alerts on their phone, whatever their hands are at. */
export function* listen(self: Self): Script {
  const heard = new Map<string, number>();
  for (;;) {
    const { alerts } = kitchenOf(self);
    for (const key of heard.keys()) if (alerts[key] === undefined) heard.delete(key);
    const due = Object.values(alerts).filter((alert) => isMine(self, alert) && isDue(self, heard, alert));
    for (const alert of due) yield* answer(self, alert);
    yield* pass(LISTEN_MS);
  }
}

const isMine = (self: Self, alert: ActiveAlert): boolean =>
  alert.acknowledged === undefined &&
  !isOfStory(self, alert) &&
  isShown(alert, nowOf(self)) &&
  forPerson(alert, self.worker.person.id, self.worker.person.role);

const isOfStory = ({ world }: Self, { trayId, orderId }: ActiveAlert): boolean =>
  world.inStory.has(trayId ?? "") || world.inStory.has(orderId ?? "");

/** Each alert is answered once, some seconds after it was raised. */
function isDue(self: Self, heard: Map<string, number>, alert: ActiveAlert): boolean {
  const [from, to] = ANSWER_S[alert.class];
  const answerMs = heard.get(alert.key) ?? nowOf(self) + self.chance.between(from, to) * SECOND_MS;
  heard.set(alert.key, answerMs);
  if (nowOf(self) < answerMs) return false;
  heard.set(alert.key, Infinity);
  return true;
}

function* answer(self: Self, alert: ActiveAlert): Script {
  if (alert.class === "prompt" && self.chance.happens(0.1) && mayPutOff(alert)) {
    yield* ask({ type: "put-off-alert", key: alert.key, minutes: 10 });
    return;
  }
  yield* ask({ type: "acknowledge-alert", key: alert.key });
  const { kind, orderId, placeId } = alert;
  if (kind === "tool-left-on") yield* switchOff(self, alert);
  if (kind === "icing-too-old") yield* freshen(self, alert);
  if (kind === "oven-too-hot") yield* coolDown(self, alert);
  if (kind === "pick-up-at-risk" && orderId !== undefined) yield* hurry(self, orderId);
  if (kind === "will-not-dry-here" && placeId !== undefined)
    yield* moveOut(self, (tray) => standsAt(tray).placeId === placeId);
}

function* switchOff(self: Self, { toolId }: ActiveAlert): Script {
  const tool = kitchenOf(self).tools[toolId ?? ""];
  if (tool === undefined) return;
  yield* pass(self.chance.between(15, 60) * SECOND_MS);
  const isInHand = self.world.inHand.has(tool.id) || isBusy(self, tool.id);
  yield* ask({ type: isInHand ? "tool-still-in-use" : "tool-off", toolId: tool.id });
}

/** Fresh icing for the layer in hand. */
function* freshen(self: Self, { trayId }: ActiveAlert): Script {
  const tray = kitchenOf(self).trays[trayId ?? ""];
  const layer = tray === undefined ? undefined : designOf(self, tray)?.layers[tray.films.length];
  if (layer !== undefined && tooOld(kitchenOf(self), layer, nowOf(self)) !== undefined)
    yield* mix(self, layer);
}

function* coolDown(self: Self, { toolId }: ActiveAlert): Script {
  const tool = kitchenOf(self).tools[toolId ?? ""];
  if (tool === undefined) return;
  yield* pass(self.chance.between(4, 8) * 60 * SECOND_MS);
  yield* ask({
    type: "read-tool-temperature",
    toolId: tool.id,
    tempC: Math.round(tool.airC + self.chance.between(-1, 2)),
  });
}

/** An order short of time: from now on its trays go where they dry soonest, and those done go there at once. */
function* hurry(self: Self, orderId: string): Script {
  self.world.hurried.add(orderId);
  yield* moveOut(self, (tray) => tray.orderId === orderId && tray.status.stage === "full-dry");
}

/** Moves trays that still dry to the warm cabinet, and what finds no room there to the fan rack. */
function* moveOut(self: Self, isMeant: (tray: Tray) => boolean): Script {
  for (const { id } of Object.values(kitchenOf(self).trays).filter(isMeant)) {
    const kitchen = kitchenOf(self);
    const tray = kitchen.trays[id];
    if (tray === undefined || self.world.inHand.has(id)) continue;
    const isWaiting = tray.status.stage === "crusting" || tray.status.stage === "full-dry";
    const now = kitchen.places[standsAt(tray).placeId]?.kind;
    if (!isWaiting || now === "warm-cabinet") continue;
    const place =
      roomIn(kitchen, "warm-cabinet", self.world.cabinetKept) ??
      (now === "fan-rack" ? undefined : roomIn(kitchen, "fan-rack"));
    if (place !== undefined) yield* carry(self, tray.id, place);
  }
}
