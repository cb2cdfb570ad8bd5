import { foundAt } from "#shared/kitchen/route.ts";
import { standsAt, type Tray } from "#shared/kitchen/state.ts";
import { kitchenOf, leaveFor, type Self, trayOf, wantingOf } from "./floor.ts";
import { isBusy } from "./heating.ts";
import { report, touch } from "./laying.ts";
import { ask, pass, type Script } from "./script.ts";

const SECOND_MS = 1000;

const HABITS = { touchesFirst: 0.5, smearsOne: 0.02, breaksOne: 0.03 } as const;
const PACKING_S = 14;

/** Packs a tray that should be dry through, feeling for it first more often than not. */
export function* packOne(self: Self, trayId: Tray["id"]): Script {
  const { chance } = self;
  yield* pass(chance.between(15, 45) * SECOND_MS);
  const tray = trayOf(self, trayId);
  if (tray === undefined) return;
  const { act, ready } = wantingOf(self, tray);
  if (act.kind !== "pack") return;
  const wantsTouch = ready.is === "check by touch" || chance.happens(HABITS.touchesFirst);
  if (wantsTouch && !(yield* feelsDry(self, tray))) {
    leaveFor(self, tray.id, chance.between(35, 70));
    return;
  }
  yield* pass(PACKING_S * tray.count * SECOND_MS * self.worker.pace * chance.between(0.85, 1.2));
  const packed = yield* ask({ type: "pack", trayId: tray.id });
  if (!packed.ok) {
    leaveFor(self, tray.id, chance.between(10, 20));
    return;
  }
  if (chance.happens(HABITS.breaksOne)) yield* report(self, tray.id, "broken");
  else if (chance.happens(HABITS.smearsOne)) yield* report(self, tray.id, "smeared");
  yield* switchOffEmptied(self, standsAt(tray).placeId);
}

/** Feels the thickest of what is not known to be dry: the film that is last to dry through. */
function* feelsDry(self: Self, tray: Tray): Script<boolean> {
  const layers = kitchenOf(self).designs[tray.designId]?.layers ?? [];
  const [last] = tray.films
    .filter((film) => foundAt(film, "dry through") === undefined)
    .toSorted((a, b) => (layers[b.layer]?.thicknessMm ?? 0) - (layers[a.layer]?.thicknessMm ?? 0));
  return last === undefined || (yield* touch(self, tray.id, last.layer)) === "firm";
}

/** Whoever takes the last tray out of a warm cabinet switches it off. */
function* switchOffEmptied(self: Self, placeId: string): Script {
  const tool = Object.values(kitchenOf(self).tools).find((one) => one.placeId === placeId);
  if (tool === undefined || tool.use.status === "off" || isBusy(self, tool.id)) return;
  yield* pass(self.chance.between(10, 30) * SECOND_MS);
  yield* ask({ type: "tool-off", toolId: tool.id });
}
