import type { Band } from "#shared/drying/uncertainty/band.ts";
import type { OrderForecast } from "#shared/kitchen/model/forecast.ts";
import { actsOf, type PlannedAct } from "./acts.ts";
import { type Draws, drawSteps } from "./draws.ts";
import { momentsFrom } from "./moments.ts";
import { stratifiedNormals } from "./normals.ts";
import { closingsToBlame, orderForecastOf, shareOf } from "./order-forecasts.ts";
import { type Outcome, outcomeSteps } from "./outcomes.ts";
import { bestPolicy } from "./policy.ts";
import type { Lack } from "./lacks.ts";
import type { PlanQuestion } from "./plan-work.ts";
import type { Priorities } from "#shared/scheduling/work.ts";

/** What comes of a plan. */
export interface Outlook {
  /** When each tray can be packed; trays of which a film has no forecast yet are not here. */
  trays: Readonly<Record<string, Band>>;
  /** Orders of which every tray is known. */
  orders: Readonly<Record<string, OrderForecast>>;
}

/** Who does what when, and what comes of it. */
export interface DayPlan extends Outlook {
  madeAtMs: number;
  /** What it had to be made without. */
  without: readonly Lack[];
  /** By start. */
  acts: readonly PlannedAct[];
}

/** Before there is any. */
export const NO_PLAN: DayPlan = { madeAtMs: 0, without: [], acts: [], trays: {}, orders: {} };

/** One tray or one order. */
export type PlanSubject = { trayId: string } | { orderId: string };

interface Drawn {
  policy: Priorities;
  draws: Draws;
  outcome: Outcome;
}

/**
 * The day's plan: a policy that makes the likely day least late, then the same policy through every draw. Orders' times and chances
 * come from the draws alone. In steps of about a millisecond.
 */
export function* planSteps(question: PlanQuestion): Generator<void, DayPlan> {
  const { nowMs, work, dueMin, without, packed } = question;
  const drawn = yield* drawnSteps(question);
  const { trays, orders } = yield* outlookOf(question, drawn);
  const late = drawn.outcome.orders.filter(({ order }) => {
    const likely = orders[order.id]?.packed;
    return likely !== undefined && !("never" in likely) && likely.likelyMs > order.pickUpAtMs;
  });
  const closings = yield* closingsToBlame(work, drawn.policy, drawn.draws, late, nowMs);
  const at = momentsFrom(nowMs);
  const blamed = Object.fromEntries(
    [...closings].map(([id, min]) => [id, { ...orders[id]!, closedAtMs: at(min) }]),
  );
  const all = { ...orders, ...blamed, ...packed };
  const isLost = (trayId: string): boolean => all[question.trays[trayId]?.orderId ?? ""]?.chance === 0;
  const acts = actsOf(nowMs, work, drawn.policy, dueMin, isLost);
  return { madeAtMs: nowMs, without, acts, trays, orders: all };
}

/** What such a plan comes to for one tray or order alone. */
export function* outlookSteps(question: PlanQuestion, subject: PlanSubject): Generator<void, Outlook> {
  const { orders } = question;
  const own = "orderId" in subject ? orders.filter(({ order }) => order.id === subject.orderId) : [];
  const trays = "trayId" in subject ? [subject.trayId] : [];
  const drawn = yield* drawnSteps(question, own, trays);
  return yield* outlookOf(question, drawn);
}

function* drawnSteps(
  { work, dueMin, trays, learned, pace, orders }: PlanQuestion,
  ofOrders = orders,
  ofTrays: Iterable<string> = work.lastOf.keys(),
): Generator<void, Drawn> {
  const policy = yield* bestPolicy(trays, work, dueMin);
  const draws = yield* drawSteps(work, learned, pace, stratifiedNormals());
  const lasts = [...ofTrays].flatMap((id) => work.lastOf.get(id) ?? []);
  const outcome = yield* outcomeSteps(work, policy, draws, ofOrders, lasts);
  return { policy, draws, outcome };
}

function* outlookOf({ nowMs, work, trays }: PlanQuestion, { outcome }: Drawn): Generator<void, Outlook> {
  const at = momentsFrom(nowMs);
  const bandOf = (sorted: Float64Array): Band | undefined => {
    const [earliestMs, likelyMs, latestMs] = [0.1, 0.5, 0.9].map((share) => at(shareOf(sorted, share)));
    return Number.isFinite(latestMs)
      ? { earliestMs: earliestMs!, likelyMs: likelyMs!, latestMs: latestMs! }
      : undefined;
  };
  const bands: Record<string, Band> = {};
  for (const [task, ready] of outcome.readyMin) {
    const { trayId } = work.tasks[task]!;
    const band = work.never.get(trayId) ?? bandOf(ready.toSorted());
    if (band !== undefined) bands[trayId] = band;
    yield;
  }
  const orders: Record<string, OrderForecast> = {};
  for (const one of outcome.orders) {
    const forecast = orderForecastOf(one, work, trays, at, bandOf);
    if (forecast !== undefined) orders[one.order.id] = forecast;
    yield;
  }
  return { trays: bands, orders };
}
