import { isOrderPacked } from "#shared/kitchen/model/order-cookies.ts";
import { byName } from "#shared/collections.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { MIN_MS } from "#shared/time.ts";
import { closedMin } from "./hours.ts";
import { isLongPast } from "#shared/kitchen/orders/pick-up.ts";
import type { PlanQuestion, PlanWork } from "./plan-work.ts";
import { improved } from "#shared/scheduling/priorities.ts";
import { HANDS } from "./resources.ts";
import type { Scheduler } from "#shared/scheduling/schedule.ts";
import { latestStarts, NOT_DUE_MIN } from "./start-by.ts";
import type { Priorities } from "#shared/scheduling/work.ts";

/** Schedules tried in the search for less lateness: so many tasks in all, but so many at least and at most. */
const SEARCH = { tasks: 15_000, least: 8, most: 300 } as const;
/** Orders late by less in all are in time. */
const LATE_MIN = 0.5;
/** Against a minute that an order is late: a minute that one of its trays is, one until hands are done, one of changing icings. */
const WEIGHTS = { trayLate: 0.01, hands: 1e-6, changes: 1e-8 } as const;
/** Tasks that must begin within so many minutes of each other may go by their icing. */
const ALIKE_MIN = 30;

/** When each task's tray is due, minutes from the plan's start; of trays that nobody waits for `NOT_DUE_MIN`. */
export function duesOf({ trays, orders }: Kitchen, work: PlanWork, nowMs: number): Float64Array {
  const byOrder = byName(Object.values(trays), ({ orderId }) => orderId);
  const dueMin = new Map(
    Object.values(orders)
      .filter((order) => !isLongPast(order, nowMs) && !isOrderPacked(order, byOrder.get(order.id) ?? []))
      .map(({ id, pickUpAtMs }) => [id as string, (pickUpAtMs - nowMs) / MIN_MS]),
  );
  return Float64Array.from(work.tasks, ({ trayId }) =>
    work.never.has(trayId) ? NOT_DUE_MIN : (dueMin.get(trays[trayId]?.orderId ?? "") ?? NOT_DUE_MIN),
  );
}

/**
 * The priority list of least lateness of orders on the likely day, then with hands done soonest, then with fewest changes of icing.
 * It begins from the latest starts, tasks that must begin at much the same time by icing or not; only where orders are late that way
 * are priorities by tardiness tried and the best searched further, so that a day that goes well does not change with every tap.
 */
export function* bestPolicy(
  trays: PlanQuestion["trays"],
  work: PlanWork,
  dueMin: Float64Array,
): Generator<void, Priorities> {
  const latest = latestStarts(work, dueMin);
  const byIcing = latest.map((min, task) => {
    const { icing = 0, pool } = work.tasks[task]!;
    return pool === HANDS ? ALIKE_MIN * Math.floor(min / ALIKE_MIN) + icing / 1000 : min;
  });
  const tries = Math.round(
    Math.min(SEARCH.most, Math.max(SEARCH.least, SEARCH.tasks / Math.max(1, work.tasks.length))),
  );
  const cost = costOf(trays, work, dueMin);
  return yield* improved(work, [latest, byIcing], cost, tries, seeded(), LATE_MIN, [
    byTardiness(work, latest),
  ]);
}

/** Times the mean task that a task's slack is weighed against. */
const LOOK_AHEAD = 2;

/**
 * Priorities by apparent tardiness cost (Vepsalainen & Morton 1987, from memory), as their logarithm: among tasks that are nearly or
 * already too late short ones go first, so that of orders which cannot all be met fewer are missed.
 */
function byTardiness({ tasks }: PlanWork, latest: Float64Array): Float64Array {
  const meanMin = tasks.reduce((sum, { durationMin }) => sum + durationMin, 0) / Math.max(1, tasks.length);
  return latest.map(
    (slackMin, task) =>
      Math.max(0, slackMin) / (LOOK_AHEAD * Math.max(1, meanMin)) +
      Math.log(Math.max(1, tasks[task]!.durationMin)),
  );
}

function costOf(
  trays: PlanQuestion["trays"],
  work: PlanWork,
  dueMin: Float64Array,
): (scheduler: Scheduler) => number {
  const packs = [...work.lastOf].filter(([, task]) => dueMin[task]! < NOT_DUE_MIN);
  const orders = [...byName(packs, ([trayId]) => trays[trayId]?.orderId ?? "").values()].map((own) =>
    own.map(([, task]) => task),
  );
  const hands = [...work.tasks.keys()].filter((task) => work.tasks[task]!.pool === HANDS);
  const laid = hands.filter((task) => work.tasks[task]!.isDivisible !== true);
  return ({ startMin, endMin }) => {
    let cost = 0;
    for (const own of orders) {
      let worst = 0;
      for (const task of own) {
        const late = Math.max(0, endMin[task]! - dueMin[task]!);
        cost += WEIGHTS.trayLate * late;
        worst = Math.max(worst, late);
      }
      cost += worst;
    }
    let done = 0;
    for (const task of hands) if (endMin[task]! < Infinity) done = Math.max(done, endMin[task]!);
    let changes = 0;
    for (const task of laid)
      if (endMin[task]! < Infinity)
        changes += endMin[task]! - startMin[task]! - work.tasks[task]!.durationMin;
    return cost + WEIGHTS.hands * (done - closedMin(work.hours, 0, done)) + WEIGHTS.changes * changes;
  };
}

/** Numbers from 0 up to 1, the same for every plan (Mulberry32, from memory). */
function seeded(): () => number {
  let state = 1;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
