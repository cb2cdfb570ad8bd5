import type { OrderForecast } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { DayPlan } from "#shared/kitchen/plan/plan.ts";
import type { PlanAnswer } from "#shared/protocol/plan.ts";

type Answered = PlanAnswer["orders"][number];

/** The day's plan as `GET /api/plan` gives it. */
export const planAnswer = ({ madeAtMs, without, acts, orders }: DayPlan, kitchen: Kitchen): PlanAnswer => ({
  madeAtMs,
  without: [...without],
  tasks: [...acts],
  orders: Object.entries(orders).map(([orderId, forecast]) => {
    const { packed, chance = 0, hangsOn, closedAtMs } = forecast;
    const why = whyOf(forecast, kitchen.orders[orderId]?.pickUpAtMs, madeAtMs);
    return {
      orderId,
      ...(packed && {
        earliestMs: packed.earliestMs,
        likelyMs: packed.likelyMs,
        latestMs: packed.latestMs,
      }),
      chance,
      ...(hangsOn && { hangsOn: { ...hangsOn, trays: [...hangsOn.trays] } }),
      ...(closedAtMs === undefined ? {} : { closedAtMs }),
      ...(why && { why }),
    };
  }),
});

/** Why an order has no times, or cannot be in time any more. */
function whyOf(
  { finish, chance }: OrderForecast,
  pickUpAtMs: number | undefined,
  madeAtMs: number,
): Answered["why"] {
  if ("never" in finish) return { is: "never dry", never: { ...finish.never } };
  return chance === 0 && pickUpAtMs !== undefined && pickUpAtMs < madeAtMs
    ? { is: "pick-up past" }
    : undefined;
}
