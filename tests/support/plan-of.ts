import type { ReachedBand } from "#shared/drying/uncertainty/band.ts";
import { MIN_MS } from "#shared/time.ts";
import { learn } from "#shared/drying/uncertainty/learning.ts";
import { paceOf } from "#shared/kitchen/plan/pace.ts";
import { type DayPlan, planSteps } from "#shared/kitchen/plan/plan.ts";
import type { PlanInput } from "#shared/kitchen/plan/plan-work.ts";
import { questionSteps } from "#shared/kitchen/plan/question.ts";
import type { Spans } from "#shared/kitchen/forecast/films.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { atOnce } from "#shared/steps.ts";
import type { Scene } from "./scene.ts";

/** A span of so many minutes: its earliest, its likeliest and its latest. */
export const minutes = (earliest: number, likely: number, latest: number): ReachedBand => ({
  earliestMs: earliest * MIN_MS,
  likelyMs: likely * MIN_MS,
  latestMs: latest * MIN_MS,
});

/** A span with next to no doubt. */
export const surely = (likely: number): ReachedBand => minutes(likely - 0.001, likely, likely + 0.001);

/** Skins in half an hour, dry through in four hours. */
const USUAL: Spans = { skin: surely(30), dryThrough: surely(240) };

/** A plan from its kitchen, in its steps. */
export function* dayPlanSteps(input: PlanInput): Generator<void, DayPlan> {
  return yield* planSteps(yield* questionSteps(input));
}

/** The plan of a scene, with films that dry as the test says. */
export function planOf(
  scene: Scene,
  spansOf: (tray: Tray, layer: number) => Spans = () => USUAL,
  more: Pick<PlanInput, "heated"> = {},
): DayPlan {
  const { kitchen, nowMs, forecasts } = scene;
  const steps = dayPlanSteps({
    kitchen,
    nowMs,
    films: forecasts.films,
    spansOf,
    pace: { ...paceOf(kitchen), traySd: 0, meanSd: 0 },
    learned: learn([]),
    ...more,
  });
  return atOnce(steps);
}
