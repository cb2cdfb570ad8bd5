import type { Advice, AdviceFor } from "#shared/kitchen/advice/advice.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { MakeUpStart } from "#shared/kitchen/orders/make-up.ts";
import type { DayPlan } from "#shared/kitchen/plan/plan.ts";
import type { ForecastPatch } from "#shared/protocol/change.ts";
import type { Clock, Timers } from "#server/live/clock.ts";
import type { Report } from "#server/words.ts";

/** What the server forecasts for. */
export interface ForecastingHost {
  kitchen: () => Kitchen;
  clock: Clock;
  timers: Timers;
  /** Told what is new in the forecasts. */
  publish: (patch: ForecastPatch) => void;
  report: Report;
}

/** The forecasts that stand beside the state, wherever they are worked out. */
export interface Forecasting {
  current: () => Forecasts;
  /** After each commit: what these events touch is forecast again, touched trays first. */
  touch: (events: readonly KitchenEvent[]) => void;
  /** Everything again, since the air ages: once a kitchen-minute. What has not changed is not worked out twice. */
  refresh: () => void;
  /** Of a state that is another altogether. */
  startOver: () => void;
  /** What would help a tray or an order, by forecasts that know of everything done so far. */
  advise: (subject: AdviceFor) => Promise<Advice | undefined>;
  /** By when an order's make-up trays must be begun; undefined where nothing is to be made up. */
  makeUpStart: (orderId: string) => Promise<MakeUpStart | undefined>;
  /** The newest plan. */
  plan: () => DayPlan | Promise<DayPlan>;
  /** Resolves when nothing is left to do. */
  idle: () => Promise<void>;
  stop: () => void;
}
