import type { Advice, AdviceFor } from "#shared/kitchen/advice/advice.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { MakeUpStart } from "#shared/kitchen/orders/make-up.ts";
import type { DayPlan } from "#shared/kitchen/plan/plan.ts";
import type { ForecastPatch } from "#shared/protocol/change.ts";

/** What the forecasts' thread can be asked: by name, of what, and what it answers. */
export interface Asks {
  advice: { of: AdviceFor; answer: Advice | undefined };
  makeUpStart: { of: string; answer: MakeUpStart | undefined };
  plan: { of: null; answer: DayPlan };
  /** All of them, once nothing is left to do. */
  forecasts: { of: null; answer: Forecasts };
}

export type Question = { [Name in keyof Asks]: { what: Name; of: Asks[Name]["of"] } }[keyof Asks];

/** What the thread is told. `nowMs`: the kitchen's time as it is told. */
export type ToThread = { nowMs: number } & (
  | { is: "kitchen"; kitchen: Kitchen; speed: number }
  | { is: "events"; events: readonly KitchenEvent[] }
  | { is: "refresh" }
  | ({ is: "ask"; id: number } & Question)
);

/** What it tells. */
export type FromThread =
  | { is: "patch"; patch: ForecastPatch }
  | { is: "report"; line: string; cause?: unknown }
  | { is: "answer"; id: number; answer: Asks[keyof Asks]["answer"] }
  | { is: "failed"; id: number; error: Error };
