import { isOrderPacked } from "#shared/kitchen/model/order-cookies.ts";
import type { Band } from "#shared/drying/uncertainty/band.ts";
import type { OrderForecast } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen, OrderState } from "#shared/kitchen/model/state.ts";
import { MIN_MS } from "#shared/time.ts";
import type { Draws } from "./draws.ts";
import { closingOn, criticalChain } from "./hangs-on.ts";
import { DRAWS } from "./normals.ts";
import { firstWaits, type OrderOutcome } from "./outcomes.ts";
import type { PlannedTray, PlanQuestion, PlanWork } from "./plan-work.ts";
import { Scheduler } from "#shared/scheduling/schedule.ts";
import { ALWAYS, type Priorities, waitsOf } from "#shared/scheduling/work.ts";

/** Whether closing is to blame is asked of every so manieth draw. */
const WITHOUT_CLOSING_EVERY = 4;
/** A tray is named with an order that hangs on it if it is the last this often. */
const NAMED_SHARE = 0.1;

/** Of an order with nothing left to do: when its last tray was packed. */
export function packedForecast(kitchen: Kitchen, order: OrderState): OrderForecast | undefined {
  const trays = Object.values(kitchen.trays).filter(({ orderId }) => orderId === order.id);
  const packedMs = trays.flatMap(({ status }) => (status.stage === "packed" ? status.atMs : []));
  if (packedMs.length === 0) return undefined;
  if (packedMs.length < trays.length && !isOrderPacked(order, trays)) return undefined;
  const lastMs = Math.max(...packedMs);
  const packed = { earliestMs: lastMs, likelyMs: lastMs, latestMs: lastMs };
  const spareMin = Math.round((order.pickUpAtMs - lastMs) / MIN_MS);
  return {
    finish: packed,
    packed,
    spareMin,
    spareWorstMin: spareMin,
    chance: lastMs <= order.pickUpAtMs ? 1 : 0,
  };
}

/** The time that this share of the draws is done by: one of theirs, as between two there may be closed hours. */
export const shareOf = (sorted: Float64Array, share: number): number =>
  sorted[Math.ceil(share * sorted.length - 0.5)]!;

export function orderForecastOf(
  { order, packs, packedIn, readyIn, last }: OrderOutcome,
  work: PlanWork,
  trays: PlanQuestion["trays"],
  at: (min: number) => number,
  bandOf: (sorted: Float64Array) => Band | undefined,
): OrderForecast | undefined {
  const never = packs
    .map((task) => work.never.get(work.tasks[task]!.trayId))
    .find((why) => why !== undefined);
  const packed = bandOf(packedIn.toSorted());
  const finish = never ?? bandOf(readyIn.toSorted());
  if (never !== undefined) return { finish: never, chance: 0 };
  if (finish === undefined || packed === undefined || "never" in packed) return undefined;
  const spareMin = (ms: number): number => Math.round((order.pickUpAtMs - ms) / MIN_MS);
  const inTime = packedIn.reduce((count, min) => count + Number(at(min) <= order.pickUpAtMs), 0);
  const byTimes = [...last].toSorted((a, b) => b[1].times - a[1].times || a[0] - b[0]);
  const [most] = byTimes;
  const because = [...(most?.[1].because.values() ?? [])].toSorted((a, b) => b.times - a.times)[0]?.of;
  const numberOf = (task: number): PlannedTray | undefined => trays[work.tasks[task]!.trayId];
  const first = most === undefined ? undefined : numberOf(most[0]);
  const alike = byTimes
    .filter(([, { times }]) => times >= NAMED_SHARE * DRAWS)
    .flatMap(([task]) => numberOf(task) ?? [])
    .filter(({ designId }) => designId === first?.designId);
  const named = new Set([...(first === undefined ? [] : [first]), ...alike].map(({ number }) => number));
  return {
    finish,
    packed,
    spareMin: spareMin(packed.likelyMs),
    spareWorstMin: spareMin(packed.latestMs),
    chance: inTime / DRAWS,
    ...(because === undefined ? {} : { hangsOn: { trays: [...named].toSorted((a, b) => a - b), because } }),
  };
}

/** Of orders likely late: the closing that makes them so, where they would be in time if the kitchen never closed. */
export function* closingsToBlame(
  work: PlanWork,
  policy: Priorities,
  draws: Draws,
  late: readonly OrderOutcome[],
  nowMs: number,
): Generator<void, ReadonlyMap<string, number>> {
  const blamed = new Map<string, number>();
  if (late.length === 0) return blamed;
  const open = new Scheduler({ ...work, pools: work.pools.map(({ units }) => ({ units, hours: ALWAYS })) });
  const inTime = new Map<string, number>();
  const asked = DRAWS / WITHOUT_CLOSING_EVERY;
  const most = (times: number | undefined): boolean => (times ?? 0) >= asked / 2;
  for (let k = 0; k < asked; k += 1) {
    const isOpen = ({ order }: OrderOutcome): boolean => {
      const times = inTime.get(order.id) ?? 0;
      return !most(times) && most(times + asked - k);
    };
    const undecided = late.filter(isOpen);
    if (undecided.length === 0) break;
    open.run(policy, draws(k * WITHOUT_CLOSING_EVERY));
    for (const { order, packs } of undecided) {
      const dueMin = (order.pickUpAtMs - nowMs) / MIN_MS;
      if (packs.every((task) => open.endMin[task]! <= dueMin))
        inTime.set(order.id, (inTime.get(order.id) ?? 0) + 1);
    }
    yield;
  }
  const likely = new Scheduler(work);
  const waitsMin = waitsOf(work);
  likely.run(policy, { waitsMin });
  for (const { order, packs } of late) {
    if (!most(inTime.get(order.id))) continue;
    const last = packs.reduce((a, b) => (likely.endMin[b]! > likely.endMin[a]! ? b : a));
    const closing = closingOn(work, criticalChain(work, likely, waitsMin, firstWaits(work), last));
    if (closing !== undefined) blamed.set(order.id, closing);
  }
  return blamed;
}
