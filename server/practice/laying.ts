import { layerSinkRisk } from "#shared/icing/sinking.ts";
import { foundAt } from "#shared/kitchen/tray/route.ts";
import { standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Consistency, Layer, TouchFinding } from "#shared/kitchen/model/vocabulary.ts";
import { carry, emptiestRack, roomIn } from "./places.ts";
import { designOf, kitchenOf, leaveFor, nowOf, type Self, trayOf, waitsNow, wantingOf } from "./world.ts";
import { heatSet } from "./heating.ts";
import { takeIcing } from "./mixing.ts";
import { ask, pass, type Script } from "./scheduler.ts";
import { MIN_MS, SECOND_MS } from "#shared/time.ts";

/** Seconds of hands a cookie, by what is laid. */
const LAYING_S: Readonly<Record<Consistency, number>> = {
  outline: 24,
  flood: 30,
  "top-coat": 34,
  detail: 26,
};

/** How people are: shares of the times. */
const HABITS = {
  touchesFirst: 0.45,
  noticesWet: 0.8,
  tapsOnce: 0.2,
  startsTooSoon: 0.03,
  takesBack: 0.015,
  reports: 0.6,
  spoilsOne: 0.02,
  /** Where it dries when there is no hurry. */
  warms: 0.2,
  fans: 0.2,
  fansLast: 0.5,
} as const;

/** Takes a tray up, lays its next layer and those that go on wet, sets what would sink, and puts it down to dry. */
export function* layNext(self: Self, trayId: Tray["id"]): Script {
  const { chance } = self;
  yield* pass(chance.between(15, 50) * SECOND_MS);
  for (;;) {
    const tray = trayOf(self, trayId);
    if (tray === undefined || wantingOf(self, tray).act.kind !== "flood") return;
    if (!(yield* waitsAreOver(self, tray))) return;
    const bleeds = trulyWet(self, tray);
    if (!(yield* layOne(self, tray))) return;
    if (bleeds && chance.happens(HABITS.reports)) yield* report(self, trayId, "bled");
    const laid = trayOf(self, trayId);
    if (laid === undefined) return;
    yield* setWhatSinks(self, laid);
    const after = trayOf(self, trayId);
    if (after === undefined) return;
    const goesOnWet = waitsNow(self, after).length === 0 && wantingOf(self, after).act.kind === "flood";
    if (!goesOnWet) {
      yield* putDown(self, after);
      return;
    }
    yield* pass(chance.between(10, 40) * SECOND_MS);
  }
}

/** Looks, and often touches, before laying against a film. Leaves the tray alone for a while when it is wet. */
function* waitsAreOver(self: Self, tray: Tray): Script<boolean> {
  const { ready } = wantingOf(self, tray);
  if (ready.is !== "ready" && ready.is !== "check by touch") return false;
  const open = waitsNow(self, tray).filter(({ reached }) => reached === undefined);
  if (open.length === 0) return true;
  const touches = self.chance.happens(trulyWet(self, tray) ? HABITS.noticesWet : HABITS.touchesFirst);
  if (ready.is === "ready" && !touches) return true;
  for (const { layer, need } of open) {
    const found = yield* touch(self, tray.id, layer);
    if (found === "firm" || (found === "skinned" && need === "skin")) continue;
    leaveFor(self, tray.id, self.chance.between(8, 16));
    return false;
  }
  return true;
}

/** Touches a film and says what was found; undefined when the kitchen would not take it. */
export function* touch(self: Self, trayId: string, layer: number): Script<TouchFinding | undefined> {
  const tray = trayOf(self, trayId);
  const film = tray?.films.find((one) => one.layer === layer);
  if (tray === undefined || film === undefined) return undefined;
  yield* pass(self.chance.between(5, 15) * SECOND_MS);
  const finding = self.world.groundTruth.touch(kitchenOf(self), tray, film, nowOf(self));
  const told = yield* ask({ type: "touch-test", trayId: tray.id, layer, finding });
  return told.ok ? finding : undefined;
}

/** Whether the next layer, laid now, would really bleed. */
function trulyWet(self: Self, tray: Tray): boolean {
  return waitsNow(self, tray).some(({ layer, need }) => {
    const film = tray.films.find((one) => one.layer === layer);
    if (film === undefined || need === "wet" || foundAt(film, need) !== undefined) return false;
    return self.world.groundTruth.touch(kitchenOf(self), tray, film, nowOf(self)) === "still wet";
  });
}

/** Lays one layer and starts its drying clock. False when the kitchen said no. */
function* layOne(self: Self, tray: Tray): Script<boolean> {
  const { chance } = self;
  const layer = designOf(self, tray)?.layers[tray.films.length];
  if (layer === undefined) return false;
  yield* takeIcing(self, layer);
  const isOneTap = chance.happens(HABITS.tapsOnce);
  if (!isOneTap && !(yield* begin(self, tray))) {
    leaveFor(self, tray.id, chance.between(4, 9));
    return false;
  }
  yield* pass(layingMs(layer, tray.count) * self.worker.pace * chance.between(0.85, 1.2));
  if (trayOf(self, tray.id)?.films.length !== tray.films.length) return false;
  const told = yield* ask({ type: "flooded", trayId: tray.id });
  if (!told.ok) {
    leaveFor(self, tray.id, chance.between(4, 9));
    return false;
  }
  if (chance.happens(HABITS.takesBack)) {
    yield* pass(chance.between(4, 15) * SECOND_MS);
    yield* ask({ type: "take-back", trayId: tray.id, actId: told.actId });
    yield* pass(chance.between(40, 90) * SECOND_MS);
    if (!(yield* ask({ type: "flooded", trayId: tray.id })).ok) return false;
  }
  if (chance.happens(HABITS.spoilsOne)) yield* report(self, tray.id, chance.pick(["broken", "dented"]));
  return true;
}

function* begin(self: Self, tray: Tray): Script<boolean> {
  if ((yield* ask({ type: "start-flooding", trayId: tray.id })).ok) return true;
  if (!self.chance.happens(HABITS.startsTooSoon)) return false;
  return (yield* ask({ type: "start-flooding", trayId: tray.id, acceptRisk: true })).ok;
}

const layingMs = (layer: Layer, count: number): number => LAYING_S[layer.consistency] * count * SECOND_MS;

export function* report(
  self: Self,
  trayId: Tray["id"],
  problem: "bled" | "broken" | "dented" | "smeared" | "sunk",
): Script {
  const count = self.chance.whole(1, 2);
  yield* pass(self.chance.between(10, 30) * SECOND_MS);
  yield* ask({ type: "report-problem", trayId, problem, count });
}

/** Small sections are set with heat before they sink: nearly always those most at risk. */
function* setWhatSinks(self: Self, tray: Tray): Script {
  const layer = designOf(self, tray)?.layers[tray.films.length - 1];
  if (layer === undefined) return;
  const risk = layerSinkRisk(layer);
  if (risk === "none") return;
  const wasSet = self.chance.happens(risk === "most" ? 0.92 : 0.5) && (yield* heatSet(self, tray.id));
  if (!wasSet && risk === "most" && self.chance.happens(0.25)) yield* report(self, tray.id, "sunk");
}

/** Puts a tray where it should dry: in a hurry to warm or moving air, else the rack. */
function* putDown(self: Self, tray: Tray): Script {
  const { chance, world } = self;
  const kitchen = kitchenOf(self);
  const { act } = wantingOf(self, tray);
  const isLast = act.kind === "pack";
  const isHurried = world.hurried.has(tray.orderId);
  const wantsWarmth = isLast && (isHurried || chance.happens(HABITS.warms));
  const cabinet = wantsWarmth
    ? roomIn(kitchen, "warm-cabinet", world.cabinetKept + (isHurried ? 0 : 2))
    : undefined;
  const wantsFan = isHurried || chance.happens(isLast ? HABITS.fansLast : HABITS.fans);
  const fan = wantsFan ? roomIn(kitchen, "fan-rack", isLast ? 4 : 0) : undefined;
  const now = kitchen.places[standsAt(tray).placeId];
  const place = cabinet ?? fan ?? (now?.kind === "rack" ? undefined : emptiestRack(kitchen));
  if (place === undefined || place.id === now?.id) return;
  yield* carry(self, tray.id, place);
  yield* pass(chance.between(0.1, 0.6) * MIN_MS);
}
