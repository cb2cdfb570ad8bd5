import { learn } from "#shared/drying/uncertainty/learning.ts";
import type { FilmForecast } from "#shared/kitchen/model/forecast.ts";
import { filmKey } from "#shared/kitchen/model/lookups.ts";
import { paceOf } from "#shared/kitchen/plan/pace.ts";
import { DRAWS } from "#shared/kitchen/plan/normals.ts";
import type { PlanInput } from "#shared/kitchen/plan/plan-work.ts";
import { Scheduler } from "#shared/scheduling/schedule.ts";
import { planWorkSteps } from "#shared/kitchen/plan/tasks.ts";
import { atOnce } from "#shared/steps.ts";
import { bigBoard } from "#tests/support/big-board.ts";
import { dayPlanSteps, minutes } from "#tests/support/plan-of.ts";
import { createForecaster } from "#server/forecast/forecaster.ts";
import { workerPlanner } from "#server/forecast/worker-planner.ts";
import { inLog } from "#server/words.ts";
import { startPlanWorker } from "#tests/support/plan-worker.ts";
import { heldMs } from "./live/process-cpu.ts";
import { Scene } from "#tests/support/scene.ts";
import { HOUR } from "#tests/support/scene.ts";

/** A day's plan of so many trays, three of four layers laid on each, beside as many bare schedules as it draws. */
export interface PlanBench {
  trays: number;
  acts: number;
  workMs: number;
  longestSliceMs: number;
  schedulesMs: number;
}

export const PLAN_TRAYS = [30, 100, 300, 1000] as const;
const SLICE_MS = 2;
const TAPS = 12;
const TAPS_BEFORE = 3;

/** A board whose forecasts are given, so that no film is solved here. */
function boardOf(trays: number): PlanInput {
  const { kitchen, nowMs } = bigBoard(trays);
  const films: Record<string, FilmForecast> = {};
  for (const tray of Object.values(kitchen.trays))
    for (const { layer, clockStartMs } of tray.films) {
      const band = (hours: number) => ({
        earliestMs: clockStartMs + 0.6 * hours * HOUR,
        likelyMs: clockStartMs + hours * HOUR,
        latestMs: clockStartMs + 1.7 * hours * HOUR,
      });
      films[filmKey(tray.id, layer)] = { skin: band(0.7), dryThrough: band(10), basis: "measured" };
    }
  const span = (min: number) => minutes(0.6 * min, min, 1.7 * min);
  return {
    kitchen,
    nowMs,
    films,
    learned: learn([]),
    pace: paceOf(kitchen),
    spansOf: () => ({ skin: span(40), dryThrough: span(600) }),
  };
}

export const benchPlan = (trays: number): PlanBench => {
  const input = boardOf(trays);
  run(input);
  const times = Array.from({ length: 5 }, () => run(input)).toSorted((a, b) => a.workMs - b.workMs);
  return { trays, ...times[2]!, schedulesMs: schedules(input) };
};

export interface ReplanBench {
  /** A tap, to the plan that knows of it: the tray's films, learning, the plan on its thread and its rows. The median. */
  tapMs: number;
  /** Of all taps, on the forecasts' thread. */
  longestSliceMs: number;
  slicesMs: readonly number[];
  /** What would help an order, with every choice planned. */
  adviceMs: number;
  /** A plan for each choice. */
  advicePlans: number;
}

/** A board of so many trays with its forecaster and the plan's thread, as the server runs them. */
export async function benchReplan(trays: number): Promise<ReplanBench> {
  const { kitchen, nowMs } = bigBoard(trays);
  const scene = new Scene();
  Object.assign(scene, { kitchen, nowMs });
  scene.as("ida", "lead");
  const slices: number[] = [];
  const planner = workerPlanner({ start: startPlanWorker, report: (say) => console.error(inLog(say)) });
  let advicePlans = 0;
  const forecaster = createForecaster({
    kitchen: () => scene.kitchen,
    nowMs: () => scene.nowMs,
    monotonicMs: () => performance.now(),
    publish: () => undefined,
    planner: {
      ...planner,
      outlook: (question, subject) => {
        advicePlans += 1;
        return planner.outlook(question, subject);
      },
    },
    defer: (act) => setImmediate(() => void slices.push(heldMs(act))),
  });
  await forecaster.idle();
  const laid = Object.values(kitchen.trays).filter(({ films }) => films.length > 0);
  const times: number[] = [];
  for (const { id, films } of laid.slice(0, TAPS)) {
    // The first taps run code that has not run before.
    if (times.length === TAPS_BEFORE) slices.length = 0;
    const startMs = performance.now();
    const before = scene.events.length;
    scene.act("touch-test", { trayId: id, layer: films.at(-1)!.layer, finding: "still wet" });
    forecaster.touch(scene.events.slice(before));
    await forecaster.idle();
    times.push(performance.now() - startMs);
  }
  const slicesMs = [...slices];
  const startMs = performance.now();
  await forecaster.advise({ orderId: "walk" });
  const adviceMs = performance.now() - startMs;
  forecaster.stop();
  planner.stop();
  const sorted = times.slice(TAPS_BEFORE).toSorted((a, b) => a - b);
  return {
    tapMs: sorted[Math.floor(sorted.length / 2)] ?? NaN,
    longestSliceMs: Math.max(...slicesMs),
    slicesMs,
    adviceMs,
    advicePlans,
  };
}

function run(input: PlanInput): Pick<PlanBench, "acts" | "workMs" | "longestSliceMs"> {
  const startMs = performance.now();
  let [sliceMs, longestSliceMs] = [startMs, 0];
  const steps = dayPlanSteps(input);
  for (;;) {
    const step = steps.next();
    const nowMs = performance.now();
    longestSliceMs = Math.max(longestSliceMs, nowMs - sliceMs);
    // As the server cuts it.
    if (nowMs - sliceMs >= SLICE_MS) sliceMs = nowMs;
    if (step.done === true) return { acts: step.value.acts.length, workMs: nowMs - startMs, longestSliceMs };
  }
}

/** The floor: the likely day scheduled as often as it is drawn. */
function schedules(input: PlanInput): number {
  const work = atOnce(planWorkSteps(input));
  const scheduler = new Scheduler(work);
  const rank = Float64Array.from(work.tasks.keys());
  const startMs = performance.now();
  for (let draw = 0; draw < DRAWS; draw += 1) scheduler.run({ rank });
  return performance.now() - startMs;
}
