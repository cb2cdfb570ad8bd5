import type { TrayId } from "#shared/ids.ts";
import {
  nextAct,
  readiness,
  waitsOf,
  type NextAct,
  type Readiness,
  type Wait,
} from "#shared/kitchen/tray/route.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import type { Chance } from "./chance.ts";
import type { Worker } from "./house.ts";
import type { Scheduler, Script } from "./scheduler.ts";
import type { GroundTruth } from "./ground-truth.ts";
import { MIN_MS } from "#shared/time.ts";

/** What the people of the practice kitchen share: what they see, and what they tell each other. */
export interface World {
  scheduler: Scheduler;
  groundTruth: GroundTruth;
  workers: readonly Worker[];
  /** Trays and tools somebody has in hand, by id. */
  inHand: Set<string>;
  /** Trays found wet, or refused: not looked at again before this. */
  notBeforeMs: Map<string, number>;
  /** Orders that are to be hurried: their trays go to moving or warm air. */
  hurried: Set<string>;
  /** Trays and orders of a story that somebody is told: nobody here answers their alerts. */
  inStory: Set<string>;
  /** Room in the warm cabinet that a story needs. */
  cabinetKept: number;
}

/** One person at work, with chances of their own. */
export interface Self {
  world: World;
  worker: Worker;
  chance: Chance;
}

export const kitchenOf = ({ world }: Self): Kitchen => world.scheduler.stage().kitchen();
export const nowOf = ({ world }: Self): number => world.scheduler.momentMs();

export const trayOf = (self: Self, trayId: string): Tray | undefined => kitchenOf(self).trays[trayId];

export const designOf = (self: Self, tray: Tray): Design | undefined =>
  kitchenOf(self).designs[tray.designId];

/** A tray and what it wants now. */
export interface Wanting {
  tray: Tray;
  act: NextAct;
  ready: Readiness;
}

export function wantingOf(self: Self, tray: Tray): Wanting {
  const kitchen = kitchenOf(self);
  const forecasts = self.world.scheduler.stage().forecasts();
  return {
    tray,
    act: nextAct(kitchen, tray),
    ready: readiness(kitchen, forecasts, tray, nowOf(self)),
  };
}

export const waitsNow = (self: Self, tray: Tray): Wait[] =>
  waitsOf(kitchenOf(self), self.world.scheduler.stage().forecasts(), tray);

/** A visitor who joined gets this long to take up again a tray of theirs. */
const VISITORS_MS = 10 * MIN_MS;

/** Every tray nobody has in hand, in the order of the board. */
export function freeTrays(self: Self): Wanting[] {
  const { inHand, notBeforeMs, workers } = self.world;
  const nowMs = nowOf(self);
  const own = new Set<string>(workers.map(({ person }) => person.id));
  const isVisitors = ({ tray, ready }: Wanting): boolean =>
    typeof tray.assignedTo === "string" &&
    !own.has(tray.assignedTo) &&
    "sinceMs" in ready &&
    nowMs - ready.sinceMs < VISITORS_MS;
  return aliveTrays(kitchenOf(self))
    .filter((tray) => !inHand.has(tray.id) && (notBeforeMs.get(tray.id) ?? 0) <= nowMs)
    .map((tray) => wantingOf(self, tray))
    .filter((wanting) => !isVisitors(wanting));
}

/** Leaves a tray alone for some minutes. */
export function leaveFor(self: Self, trayId: TrayId, minutes: number): void {
  self.world.notBeforeMs.set(trayId, nowOf(self) + minutes * MIN_MS);
}

/** Works with a tray or tool in hand, so that no one else here takes it up. */
export function* holding<Result>(self: Self, id: string, work: Script<Result>): Script<Result> {
  self.world.inHand.add(id);
  try {
    return yield* work;
  } finally {
    self.world.inHand.delete(id);
  }
}
