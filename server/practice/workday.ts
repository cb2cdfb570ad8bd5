import { dayAndMinute } from "#shared/kitchen/model/calendar.ts";
import { standsAt, trayUnder } from "#shared/kitchen/model/lookups.ts";
import { MIN_MS, SECOND_MS } from "#shared/time.ts";
import type { Worker } from "./house.ts";
import { layNext, touch } from "./laying.ts";
import type { OrderBook } from "./order-book.ts";
import { packOne } from "./packing.ts";
import { carry, emptiestRack } from "./places.ts";
import { ask, pass, type Script } from "./scheduler.ts";
import { freeTrays, holding, kitchenOf, nowOf, type Self, type Wanting } from "./world.ts";

/** What somebody does next, and how long they wait, s, when there was nothing to do. */
const WORK: Record<
  Worker["does"],
  { next: (self: Self, book: OrderBook) => Script<boolean>; idleS: readonly [number, number] }
> = {
  leads: { next: lead, idleS: [180, 360] },
  decorates: { next: decorate, idleS: [30, 90] },
  packs: { next: (self) => takeUp(self, ready(self, freeTrays(self), "pack")), idleS: [60, 180] },
};

const BREAK_MIN = 30;
/** Decorators pack too when packing has waited this long. */
const PACKING_WAITED_MS = 45 * MIN_MS;
/** The lead lays too when so many trays wait, or one has waited so long. */
const LEAD_LAYS = { trays: 4, waitedMs: 15 * MIN_MS } as const;
/** A tray may be touched early once in this time. */
const CURIOUS = { share: 0.12, everyMs: 25 * MIN_MS } as const;
/** The cabinet is emptied and switched off this long before the lead goes home. */
const CLOSING_MIN = 30;

/** Somebody's work, day after day. */
export function* workday(self: Self, book: OrderBook): Script {
  const { next, idleS } = WORK[self.worker.does];
  for (;;) {
    yield* beAway(self);
    if (!(yield* next(self, book))) yield* pass(self.chance.between(...idleS) * SECOND_MS);
  }
}

/** Orders in, trays onto the racks as they come from the bakers, the oven looked at, a layer laid when decorators are behind. */
function* lead(self: Self, book: OrderBook): Script<boolean> {
  yield* book.takeOrders(self);
  yield* book.bringTrays(self);
  if (self.chance.happens(0.06)) yield* readOven(self);
  if (minuteOf(self) >= self.worker.toMin - CLOSING_MIN) yield* emptyCabinets(self);
  const waiting = ready(self, freeTrays(self), "flood");
  const [first] = waiting;
  const isBehind =
    waiting.length >= LEAD_LAYS.trays ||
    (first !== undefined && nowOf(self) - sinceMs(first) >= LEAD_LAYS.waitedMs);
  return isBehind ? yield* takeUp(self, waiting) : false;
}

/** What is ready first, then what has not been begun; now and then a tray is touched before its time. */
function* decorate(self: Self): Script<boolean> {
  const free = freeTrays(self);
  const next = [
    ...ready(self, free, "flood"),
    ...ready(self, free, "pack", PACKING_WAITED_MS),
    ...toBegin(self, free),
  ];
  const curious = self.chance.happens(CURIOUS.share) ? soonReady(self, free)[0] : undefined;
  const film = curious?.tray.films.at(-1);
  if (curious === undefined) return yield* takeUp(self, next);
  if (film !== undefined) yield* holding(self, curious.tray.id, touch(self, curious.tray.id, film.layer));
  return true;
}

/** Takes up the first of these trays; false when there is none. */
function* takeUp(self: Self, [first]: readonly Wanting[]): Script<boolean> {
  if (first === undefined) return false;
  const { id } = first.tray;
  yield* holding(self, id, first.act.kind === "pack" ? packOne(self, id) : layNext(self, id));
  return true;
}

const sinceMs = (one: Wanting): number => ("sinceMs" in one.ready ? one.ready.sinceMs : Infinity);

/** Trays begun whose next layer may be laid, or that may be packed, and have waited so long; the longest waiting first. */
const ready = (self: Self, free: readonly Wanting[], kind: "flood" | "pack", waitedMs = 0): Wanting[] =>
  free
    .filter(
      (one) =>
        one.act.kind === kind &&
        one.tray.status.stage !== "queued" &&
        (one.ready.is === "ready" || one.ready.is === "check by touch") &&
        nowOf(self) - sinceMs(one) >= waitedMs,
    )
    .toSorted((a, b) => sinceMs(a) - sinceMs(b) || a.tray.number - b.tray.number);

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
    ({ act, ready: coming, tray }) =>
      act.kind === "flood" &&
      coming.is === "coming" &&
      coming.band.earliestMs < nowMs &&
      tray.films.every(({ findings }) => findings.every(({ atMs }) => nowMs - atMs > CURIOUS.everyMs)),
  );
}

/** Passes the time until this person is at work: before and after hours, and the break. */
function* beAway(self: Self): Script {
  while (isAway(self)) {
    yield* leaveNothingOn(self);
    yield* pass(self.chance.between(2, 5) * MIN_MS);
  }
}

const minuteOf = (self: Self): number => dayAndMinute(nowOf(self), kitchenOf(self).settings.timeZone).minute;

function isAway(self: Self): boolean {
  const { fromMin, toMin, breakMin } = self.worker;
  const minute = minuteOf(self);
  return minute < fromMin || minute >= toMin || (minute >= breakMin && minute < breakMin + BREAK_MIN);
}

function* leaveNothingOn(self: Self): Script {
  for (const tool of Object.values(kitchenOf(self).tools)) {
    const isOwn = tool.use.status === "on" && tool.use.holder === self.worker.person.id;
    if (isOwn && tool.kind !== "warm-cabinet" && trayUnder(kitchenOf(self), tool.id) === undefined)
      yield* ask({ type: "tool-off", toolId: tool.id });
  }
}

/** Now and then the oven is read hotter than it should be. */
function* readOven(self: Self): Script {
  const oven = Object.values(kitchenOf(self).tools).find(({ kind }) => kind === "oven");
  if (oven === undefined || oven.use.status === "off") return;
  const isHot = self.chance.happens(0.08);
  const tempC = isHot ? oven.maxAirC + self.chance.between(2, 5) : oven.airC + self.chance.between(-3, 3);
  yield* ask({ type: "read-tool-temperature", toolId: oven.id, tempC: Math.round(tempC) });
}

/** Nothing stays in the warm overnight. */
function* emptyCabinets(self: Self): Script {
  if (self.world.cabinetKept > 0) return;
  for (const tool of Object.values(kitchenOf(self).tools)) {
    if (tool.kind !== "warm-cabinet" || tool.use.status === "off") continue;
    for (const tray of Object.values(kitchenOf(self).trays)) {
      if (tray.status.stage === "packed" || standsAt(tray).placeId !== tool.placeId) continue;
      const rack = emptiestRack(kitchenOf(self));
      if (rack !== undefined && !self.world.inHand.has(tray.id)) yield* carry(self, tray.id, rack);
    }
    yield* ask({ type: "tool-off", toolId: tool.id });
  }
}
