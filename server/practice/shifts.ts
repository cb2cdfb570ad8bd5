import { dayAndMinute } from "#shared/kitchen/model/calendar.ts";
import { trayUnder } from "#shared/kitchen/model/state.ts";
import { freeTrays, holding, kitchenOf, nowOf, type Self, type Wanting } from "./world.ts";
import { layNext, touch } from "./laying.ts";
import { packOne } from "./packing.ts";
import { ask, pass, type Script } from "./scheduler.ts";
import { MIN_MS, SECOND_MS } from "#shared/time.ts";

const BREAK_MIN = 30;
/** Decorators pack too when packing has waited this long. */
const LEND_A_HAND_MS = 45 * MIN_MS;
const SEVERAL = 4;
const LONG_MS = 15 * MIN_MS;
/** A tray may be touched early once in this time. */
const CURIOUS_EVERY_MIN = 25;

/** A decorator's day, every day: what is ready first, then what has not been begun. */
export function* decorate(self: Self): Script {
  for (;;) {
    yield* beAway(self);
    const free = freeTrays(self);
    const next = readyToLay(free)[0] ?? readyToPack(self, free, LEND_A_HAND_MS)[0] ?? toBegin(self, free)[0];
    const curious = self.chance.happens(0.12) ? soonReady(self, free)[0] : undefined;
    if (curious !== undefined) yield* holding(self, curious.tray.id, touchEarly(self, curious));
    else if (next === undefined) yield* pass(self.chance.between(30, 90) * SECOND_MS);
    else yield* holding(self, next.tray.id, workOn(self, next));
  }
}

/** A packer's day: packs what is dry through. */
export function* pack(self: Self): Script {
  for (;;) {
    yield* beAway(self);
    const next = readyToPack(self, freeTrays(self), 0)[0];
    if (next === undefined) yield* pass(self.chance.between(1, 3) * MIN_MS);
    else yield* holding(self, next.tray.id, packOne(self, next.tray.id));
  }
}

const workOn = (self: Self, { tray, act }: Wanting): Script =>
  act.kind === "pack" ? packOne(self, tray.id) : layNext(self, tray.id);

/** Lends the decorators a hand with the tray that has waited longest, when several wait or one has waited long. */
export function* helpOut(self: Self): Script<boolean> {
  const waiting = readyToLay(freeTrays(self));
  const [first] = waiting;
  if (first === undefined) return false;
  if (waiting.length < SEVERAL && nowOf(self) - sinceMs(first) < LONG_MS) return false;
  yield* holding(self, first.tray.id, layNext(self, first.tray.id));
  return true;
}

const sinceMs = ({ ready }: Wanting): number => ("sinceMs" in ready ? ready.sinceMs : Infinity);
const isReady = ({ ready }: Wanting): boolean => ready.is === "ready" || ready.is === "check by touch";
const longestFirst = (a: Wanting, b: Wanting): number =>
  sinceMs(a) - sinceMs(b) || a.tray.number - b.tray.number;

const readyToLay = (free: readonly Wanting[]): Wanting[] =>
  free
    .filter((one) => one.act.kind === "flood" && one.tray.status.stage !== "queued" && isReady(one))
    .toSorted(longestFirst);

const readyToPack = (self: Self, free: readonly Wanting[], waitedMs: number): Wanting[] =>
  free
    .filter((one) => one.act.kind === "pack" && isReady(one) && nowOf(self) - sinceMs(one) >= waitedMs)
    .toSorted(longestFirst);

/** Trays not begun, those of the soonest pick-up first. */
function toBegin(self: Self, free: readonly Wanting[]): Wanting[] {
  const { orders } = kitchenOf(self);
  const pickUpMs = ({ tray }: Wanting): number => orders[tray.orderId]?.pickUpAtMs ?? Infinity;
  return free
    .filter(({ tray }) => tray.status.stage === "queued")
    .toSorted((a, b) => pickUpMs(a) - pickUpMs(b) || a.tray.number - b.tray.number);
}

/** Trays that may be ready a little before the likeliest time. */
function soonReady(self: Self, free: readonly Wanting[]): Wanting[] {
  const nowMs = nowOf(self);
  return free.filter(
    ({ act, ready, tray }) =>
      act.kind === "flood" &&
      ready.is === "coming" &&
      ready.band.earliestMs < nowMs &&
      tray.films.every(({ findings }) =>
        findings.every(({ atMs }) => nowMs - atMs > CURIOUS_EVERY_MIN * MIN_MS),
      ),
  );
}

function* touchEarly(self: Self, { tray }: Wanting): Script {
  const newest = tray.films.at(-1);
  if (newest !== undefined) yield* touch(self, tray.id, newest.layer);
}

/** Passes the time until this person is at work: before and after hours, and the break. */
export function* beAway(self: Self): Script {
  while (isAway(self)) {
    yield* leaveNothingOn(self);
    yield* pass(self.chance.between(2, 5) * MIN_MS);
  }
}

function isAway(self: Self): boolean {
  const { fromMin, toMin, breakMin } = self.worker;
  const { minute } = dayAndMinute(nowOf(self), kitchenOf(self).settings.timeZone);
  return minute < fromMin || minute >= toMin || (minute >= breakMin && minute < breakMin + BREAK_MIN);
}

function* leaveNothingOn(self: Self): Script {
  for (const tool of Object.values(kitchenOf(self).tools)) {
    const isOwn = tool.use.status === "on" && tool.use.holder === self.worker.person.id;
    if (isOwn && tool.kind !== "warm-cabinet" && trayUnder(kitchenOf(self), tool.id) === undefined)
      yield* ask({ type: "tool-off", toolId: tool.id });
  }
}
