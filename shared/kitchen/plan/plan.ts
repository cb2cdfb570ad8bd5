import type { Learned } from "#shared/drying/uncertainty/learning.ts";
import type { Band } from "#shared/drying/uncertainty/band.ts";
import type { OrderForecast } from "#shared/kitchen/model/forecast.ts";
import { actsOf, type PlannedAct } from "./acts.ts";
import { type Draws, drawSteps } from "./draws.ts";
import { type Lack, lacksOf } from "./lacks.ts";
import { momentsFrom } from "./moments.ts";
import { stratifiedNormals } from "./normals.ts";
import { closingsToBlame, orderForecastOf, packedForecast, shareOf } from "./order-forecasts.ts";
import { ordersOf, type Outcome, outcomeSteps } from "./outcomes.ts";
import type { PlanGround, PlanWork } from "./plan-work.ts";
import { bestPolicy, duesOf } from "./policy.ts";
import { planWorkSteps } from "./tasks.ts";
import type { Priorities } from "#shared/scheduling/work.ts";

export interface PlanInput extends PlanGround {
  learned: Learned;
}

/** Who does what when, and what comes of it. */
export interface DayPlan {
  madeAtMs: number;
  /** What it had to be made without. */
  without: readonly Lack[];
  /** By start. */
  acts: readonly PlannedAct[];
  /** When each tray can be packed; trays of which a film has no forecast yet are not here. */
  trays: Readonly<Record<string, Band>>;
  /** Orders of which every tray is known. */
  orders: Readonly<Record<string, OrderForecast>>;
}

/** Before there is any. */
export const NO_PLAN: DayPlan = { madeAtMs: 0, without: [], acts: [], trays: {}, orders: {} };

/**
 * The day's plan: a policy that makes the likely day least late, then the same policy through every draw. Orders' times and chances
 * come from the draws alone. In steps of about a millisecond.
 */
export function* planSteps(input: PlanInput): Generator<void, DayPlan> {
  const work = yield* planWorkSteps(input);
  const dueMin = duesOf(input.kitchen, work, input.nowMs);
  const policy = yield* bestPolicy(input.kitchen, work, dueMin);
  const draws = yield* drawSteps(work, input.learned, input.pace, stratifiedNormals());
  const outcome = yield* outcomeSteps(work, policy, draws, ordersOf(input.kitchen, work));
  return yield* planOf(input, work, policy, draws, outcome, dueMin);
}

function* planOf(
  input: PlanInput,
  work: PlanWork,
  policy: Priorities,
  draws: Draws,
  outcome: Outcome,
  dueMin: Float64Array,
): Generator<void, DayPlan> {
  const { kitchen, nowMs } = input;
  const at = momentsFrom(nowMs);
  const bandOf = (sorted: Float64Array): Band | undefined => {
    const [earliestMs, likelyMs, latestMs] = [0.1, 0.5, 0.9].map((share) => at(shareOf(sorted, share)));
    return Number.isFinite(latestMs)
      ? { earliestMs: earliestMs!, likelyMs: likelyMs!, latestMs: latestMs! }
      : undefined;
  };
  const trays: Record<string, Band> = {};
  for (const [task, ready] of outcome.readyMin) {
    const { trayId } = work.tasks[task]!;
    const band = work.never.get(trayId) ?? bandOf(ready.toSorted());
    if (band !== undefined) trays[trayId] = band;
    yield;
  }
  const late = outcome.orders.filter(({ order, packedIn }) => {
    const likely = shareOf(packedIn.toSorted(), 0.5);
    return likely < Infinity && at(likely) > order.pickUpAtMs;
  });
  const closings = yield* closingsToBlame(work, policy, draws, late, nowMs);
  const orders: Record<string, OrderForecast> = {};
  for (const one of outcome.orders) {
    const forecast = orderForecastOf(one, work, kitchen, at, bandOf);
    if (forecast === undefined) continue;
    const closedMin = closings.get(one.order.id);
    orders[one.order.id] = { ...forecast, ...(closedMin === undefined ? {} : { closedAtMs: at(closedMin) }) };
  }
  for (const order of Object.values(kitchen.orders)) {
    const forecast = packedForecast(kitchen, order);
    if (forecast !== undefined) orders[order.id] = forecast;
  }
  yield;
  return {
    madeAtMs: nowMs,
    without: lacksOf(kitchen, nowMs),
    acts: actsOf(
      nowMs,
      work,
      policy,
      dueMin,
      (trayId) => orders[kitchen.trays[trayId]?.orderId ?? ""]?.chance === 0,
    ),
    trays,
    orders,
  };
}
