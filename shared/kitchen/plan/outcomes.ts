import type { Draws } from "./draws.ts";
import { criticalChain, longestOf } from "./hangs-on.ts";
import { DRAWS } from "./normals.ts";
import type { PlannedOrder, PlanWork } from "./plan-work.ts";
import { Scheduler } from "#shared/scheduling/schedule.ts";
import type { Drawn, Priorities } from "#shared/scheduling/work.ts";

/** What the draws came to. */
export interface Outcome {
  /** By last task of each tray asked for: when it could be packed, draw by draw. */
  readyMin: ReadonlyMap<number, Float64Array>;
  orders: readonly OrderOutcome[];
}

export interface OrderOutcome extends PlannedOrder {
  packedIn: Float64Array;
  readyIn: Float64Array;
  /** How often each tray's packing ended last, and what its time mostly went into. */
  last: Map<
    number,
    { times: number; because: Map<string, { times: number; of: ReturnType<typeof longestOf> }> }
  >;
}

export function* outcomeSteps(
  work: PlanWork,
  policy: Priorities,
  draws: Draws,
  planned: readonly PlannedOrder[],
  lasts: readonly number[],
): Generator<void, Outcome> {
  const scheduler = new Scheduler(work);
  const firstWait = firstWaits(work);
  const ready = lasts.map(() => new Float64Array(DRAWS));
  const orders = planned.map((order): OrderOutcome => ({
    ...order,
    packedIn: new Float64Array(DRAWS),
    readyIn: new Float64Array(DRAWS),
    last: new Map(),
  }));
  for (let draw = 0; draw < DRAWS; draw += 1) {
    const drawn = draws(draw);
    scheduler.run(policy, drawn);
    for (let k = 0; k < lasts.length; k += 1) ready[k]![draw] = scheduler.readyMin[lasts[k]!]!;
    for (const order of orders) takeIn(order, draw, work, scheduler, drawn, firstWait);
    yield;
  }
  return { readyMin: new Map(lasts.map((task, k) => [task, ready[k]!])), orders };
}

function takeIn(
  order: OrderOutcome,
  draw: number,
  work: PlanWork,
  scheduler: Scheduler,
  { waitsMin }: Drawn,
  firstWait: Int32Array,
): void {
  const { endMin, readyMin } = scheduler;
  let last = order.packs[0]!;
  let ready = 0;
  for (const task of order.packs) {
    if (endMin[task]! > endMin[last]!) last = task;
    ready = Math.max(ready, readyMin[task]!);
  }
  order.packedIn[draw] = endMin[last]!;
  order.readyIn[draw] = ready;
  if (endMin[last] === Infinity) return;
  const of = longestOf(work, scheduler, criticalChain(work, scheduler, waitsMin, firstWait, last));
  const seen = order.last.get(last) ?? { times: 0, because: new Map() };
  const key = `${of.is} ${"act" in of ? of.act : ""} ${"layer" in of ? of.layer : ""}`;
  const reason = seen.because.get(key) ?? { times: 0, of };
  reason.times += 1;
  seen.times += 1;
  seen.because.set(key, reason);
  order.last.set(last, seen);
}

/** By task: where its waits begin in the list of all waits. */
export function firstWaits({ tasks }: PlanWork): Int32Array {
  const first = new Int32Array(tasks.length);
  for (let task = 1; task < tasks.length; task += 1)
    first[task] = first[task - 1]! + tasks[task - 1]!.after.length;
  return first;
}
