import { PRIOR_BELIEF } from "#shared/drying/uncertainty/belief.ts";
import { pathToFileURL } from "node:url";
import { forecastFilm } from "#shared/drying/uncertainty/forecast.ts";

import { dueAlerts } from "#shared/kitchen/alerts/due.ts";
import { airOfFilm, filmSpecOf } from "#shared/kitchen/forecast/air.ts";
import { workerPlanner } from "#server/forecast/worker-planner.ts";
import { inLog } from "#server/words.ts";
import { startPlanWorker } from "#tests/support/plan-worker.ts";
import { createForecaster, type Forecaster } from "#server/forecast/forecaster.ts";
import { heldMs } from "./live/process-cpu.ts";
import { rememberFindings } from "../support/findings.ts";
import { bigBoard } from "../support/big-board.ts";
import { MIN, type Scene } from "../support/scene.ts";

const TRAYS = 300;
const RUNS = 5;
const NOBODY: ReadonlySet<string> = new Set();

/** Runs of the forecaster to its end, real ms. */
export interface Sweep {
  what: string;
  /** From its start to its end, the plan's thread included: the median run. */
  workMs: number;
  /** On the server's own thread, of all runs. */
  longestSliceMs: number;
}

export interface BoardBench {
  trays: number;
  films: number;
  /** The drying model asked once for each film and nothing else: what no arrangement can undercut. */
  floorMs: number;
  sweeps: readonly Sweep[];
  dueAlertsMs: number;
  /** Every slice on the server's own thread, in all sweeps of code that had run before. */
  slicesMs: readonly number[];
}

/** Forecasts of a board of 300 trays and 900 films, and its alerts, measured. */
export async function benchBoard(): Promise<BoardBench> {
  // As the server does, well before there is anything to forecast.
  const planner = workerPlanner({ start: startPlanWorker, report: (say) => console.error(inLog(say)) });
  const scene = bigBoard(TRAYS);
  const floorMs = floorOf(scene);
  const slices: number[] = [];
  const slicesMs: number[] = [];
  const forecaster = createForecaster({
    kitchen: () => scene.kitchen,
    nowMs: () => scene.nowMs,
    monotonicMs: () => performance.now(),
    publish: () => undefined,
    planner,
    defer: (act) => setImmediate(() => void slices.push(heldMs(act))),
  });
  const sweep = async (what: string, acts: readonly (() => void)[]): Promise<Sweep> => {
    const runs: { workMs: number; longestMs: number }[] = [];
    for (const act of acts) {
      slices.length = 0;
      const startMs = performance.now();
      act();
      await forecaster.idle();
      runs.push({ workMs: performance.now() - startMs, longestMs: Math.max(...slices) });
      if (what !== "") slicesMs.push(...slices);
    }
    const sorted = runs.map(({ workMs }) => workMs).toSorted((a, b) => a - b);
    return {
      what,
      workMs: sorted[Math.floor(sorted.length / 2)] ?? 0,
      longestSliceMs: Math.max(...runs.map(({ longestMs }) => longestMs)),
    };
  };
  const times = (act: () => void): (() => void)[] => Array.from({ length: RUNS }, () => act);
  const minute = (): void => later(scene, forecaster);
  const opened = await sweep("opened, before anyone is let in", [() => undefined]);
  // A server runs all day: what is measured from here on is code that has run before.
  slicesMs.length = 0;
  await sweep("", times(minute));
  await sweep(
    "",
    [10, -10].map((upPct) => () => read(scene, forecaster, upPct)),
  );
  const sweeps = [
    opened,
    await sweep("a minute later", times(minute)),
    await sweep(
      "a reading like the last",
      times(() => read(scene, forecaster, 0.3)),
    ),
    await sweep(
      "a reading 10 points up or down",
      [10, -10, 10, -10, 10].map((upPct) => () => read(scene, forecaster, upPct)),
    ),
    await sweep("one tray flooded", [() => flood(scene, forecaster)]),
  ];
  const dueAlertsMs = timed(20, () => dueAlerts(scene.kitchen, forecaster.current(), scene.nowMs, NOBODY));
  rememberFindings(scene);
  const touches = Array.from({ length: 2 * RUNS }, (_, k) => () => touch(scene, forecaster, `x${k}`));
  await sweep("", touches.slice(0, RUNS));
  sweeps.push(await sweep("a touch test, 600 findings behind it", touches.slice(RUNS)));
  forecaster.stop();
  planner.stop();
  const films = Object.values(scene.kitchen.trays).reduce((sum, tray) => sum + tray.films.length, 0);
  return { trays: TRAYS, films, floorMs, sweeps, dueAlertsMs, slicesMs };
}

function floorOf({ kitchen, nowMs }: Scene): number {
  const questions = Object.values(kitchen.trays).flatMap((tray) =>
    tray.films.map((film) => {
      const { spells, doubt, doubtFromS } = airOfFilm(kitchen, tray, film, nowMs);
      const spec = filmSpecOf(kitchen, kitchen.designs[tray.designId]!, film.layer);
      return () => forecastFilm(spec, spells, { belief: PRIOR_BELIEF, doubt, doubtFromS });
    }),
  );
  for (const ask of questions.slice(0, 20)) ask();
  return timed(1, () => {
    for (const ask of questions) ask();
  });
}

function timed(runs: number, act: () => unknown): number {
  const startMs = performance.now();
  for (let k = 0; k < runs; k += 1) act();
  return (performance.now() - startMs) / runs;
}

function later(scene: Scene, forecaster: Forecaster): void {
  scene.later(MIN);
  forecaster.refresh();
}

function read(scene: Scene, forecaster: Forecaster, upPct: number): void {
  const last = scene.kitchen.readings["rack-a"]?.at(-1);
  const reading = {
    placeId: "rack-a",
    tempC: last?.tempC ?? 22,
    rhPct: (last?.rhPct ?? 45) + upPct,
    source: "sensor",
  };
  scene.later(11 * MIN);
  acted(scene, forecaster, () => scene.act("enter-reading", { reading }));
}

const flood = (scene: Scene, forecaster: Forecaster): void =>
  acted(scene, forecaster, () => scene.act("flooded", { trayId: "t2" }));

const touch = (scene: Scene, forecaster: Forecaster, trayId: string): void =>
  acted(scene, forecaster, () => scene.act("touch-test", { trayId, finding: "skinned" }));

function acted(scene: Scene, forecaster: Forecaster, act: () => void): void {
  const before = scene.events.length;
  act();
  forecaster.touch(scene.events.slice(before));
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
  console.log(JSON.stringify(await benchBoard(), undefined, 2));
