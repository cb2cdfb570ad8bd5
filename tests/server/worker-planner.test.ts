import { afterEach, expect, test } from "vitest";
import type { Worker } from "node:worker_threads";
import { workerPlanner } from "#server/forecast/worker-planner.ts";
import { createForecaster } from "#server/forecast/forecaster.ts";
import { inLog } from "#server/words.ts";
import { PLAN_IN_TURN } from "#tests/support/plan-in-turn.ts";
import { startPlanWorker } from "#tests/support/plan-worker.ts";
import { aKitchen, HOUR, type Scene } from "#tests/support/scene.ts";
import type { Planner } from "#server/forecast/planner.ts";

const ends: (() => void)[] = [];
afterEach(() => {
  for (const end of ends.splice(0)) end();
});

/** A planner on threads, with hold of each thread it started. */
function threads(start = startPlanWorker) {
  const started: Worker[] = [];
  const reports: string[] = [];
  const planner = workerPlanner({
    start: () => {
      const worker = start();
      started.push(worker);
      return worker;
    },
    report: (say, cause) => void reports.push(`${inLog(say)} ${String(cause)}`),
  });
  ends.push(planner.stop);
  return { planner, started, reports };
}

function forecasterOf(scene: Scene, planner: Planner) {
  const reports: string[] = [];
  const forecaster = createForecaster({
    kitchen: () => scene.kitchen,
    nowMs: () => scene.nowMs,
    defer: setImmediate,
    monotonicMs: () => performance.now(),
    publish: () => undefined,
    planner,
    report: (say) => void reports.push(inLog(say)),
  });
  ends.push(forecaster.stop);
  return { forecaster, reports };
}

function laid(): Scene {
  const scene = aKitchen();
  scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct: 60, source: "typed" } });
  scene.act("flooded", { trayId: "t2" });
  return scene.later(HOUR);
}

test("a plan, and advice, of a thread of its own say what they say in turn", async () => {
  const [one, other] = [forecasterOf(laid(), threads().planner), forecasterOf(laid(), PLAN_IN_TURN)];
  await Promise.all([one.forecaster.idle(), other.forecaster.idle()]);
  expect(one.forecaster.plan()).toEqual(other.forecaster.plan());
  expect(one.forecaster.plan().acts.length).toBeGreaterThan(0);
  expect(one.forecaster.current()).toEqual(other.forecaster.current());
  const subject = { orderId: "walk" };
  expect(await one.forecaster.advise(subject)).toEqual(await other.forecaster.advise(subject));
}, 30_000);

test("a thread that dies is said, started anew, and asked again", async () => {
  const { planner, started, reports } = threads();
  const { forecaster } = forecasterOf(laid(), planner);
  await forecaster.idle();
  const before = forecaster.plan();
  forecaster.refresh();
  await started[0]!.terminate();
  await forecaster.idle();
  expect(forecaster.plan()).toEqual(before);
  expect(forecaster.plan()).not.toBe(before);
  expect(started).toHaveLength(2);
  expect(reports).toEqual([expect.stringContaining("thread")]);
}, 30_000);

test("a question that every thread dies of is given up, and the trays' forecasts go on", async () => {
  const { planner, started, reports } = threads(() => {
    const worker = startPlanWorker();
    worker.once("online", () => void worker.terminate());
    return worker;
  });
  const scene = laid();
  const { forecaster, reports: failed } = forecasterOf(scene, planner);
  await forecaster.idle();
  expect(forecaster.current().films["t2/0"]).toBeDefined();
  expect(forecaster.plan().madeAtMs).toBe(0);
  expect(failed).toHaveLength(1);
  expect(reports.length).toBe(started.length);
  expect(started.length).toBeLessThanOrEqual(2);
}, 30_000);

test("trays touched while a plan is worked out do not wait for it", async () => {
  const scene = laid();
  const gate = { isFree: false };
  let release = (): void => undefined;
  const freed = new Promise<void>((resolve) => (release = resolve)).then(() => (gate.isFree = true));
  const held: Planner = {
    ...PLAN_IN_TURN,
    *plan(question) {
      while (!gate.isFree) yield freed;
      return yield* PLAN_IN_TURN.plan(question);
    },
  };
  const { forecaster } = forecasterOf(scene, held);
  const seen = async (holds: () => boolean): Promise<void> => {
    for (let turn = 0; turn < 2000 && !holds(); turn += 1) await new Promise(setImmediate);
    expect(holds()).toBe(true);
  };
  await seen(() => forecaster.current().films["t2/0"] !== undefined);
  const before = scene.events.length;
  scene.act("flooded", { trayId: "t3" });
  forecaster.touch(scene.events.slice(before));
  await seen(() => forecaster.current().films["t3/0"] !== undefined);
  expect(forecaster.plan().madeAtMs).toBe(0);
  release();
  await forecaster.idle();
  expect(forecaster.plan().acts.length).toBeGreaterThan(0);
});
