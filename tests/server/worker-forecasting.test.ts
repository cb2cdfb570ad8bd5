import { afterEach, expect, test } from "vitest";
import { Worker } from "node:worker_threads";
import { createForecaster } from "#server/forecast/forecaster.ts";
import type { Forecasting } from "#server/forecast/forecasting.ts";
import { workerForecasting } from "#server/forecast/worker-forecasting.ts";
import { inLog } from "#server/words.ts";
import { patched } from "#shared/client/sync/replica.ts";
import { type Forecasts, NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { PLAN_IN_TURN } from "#tests/support/plan-in-turn.ts";
import { aKitchen, HOUR, type Scene } from "#tests/support/scene.ts";
import { handDriven } from "#tests/support/server-timers.ts";

const ends: (() => void)[] = [];
afterEach(() => {
  for (const end of ends.splice(0)) end();
});

/** Both forecast the very same moment. */
const STANDS_STILL = { speed: 0, realMs: 0, kitchenMs: 0 };

const startThread = (): Worker =>
  new Worker(new URL("../../server/forecast/forecast-worker.mjs", import.meta.url));

/** Forecasts on a thread, with hold of each thread it started, and what a screen that heard every patch holds. */
function onThread(scene: Scene, start = startThread) {
  const hands = handDriven();
  const started: Worker[] = [];
  const reports: string[] = [];
  const screen: { seen: Forecasts } = { seen: NO_FORECASTS };
  const forecasting = workerForecasting({
    start: () => {
      const worker = start();
      started.push(worker);
      return worker;
    },
    monotonicMs: () => performance.now(),
    after: hands.timers.after,
    report: (say) => void reports.push(inLog(say)),
  })({
    kitchen: () => scene.kitchen,
    clock: { ...hands.clock, fact: STANDS_STILL, nowMs: () => scene.nowMs },
    timers: hands.timers,
    publish: (patch) => void (screen.seen = patched(screen.seen, patch)),
    report: () => undefined,
  });
  ends.push(forecasting.stop);
  return { forecasting, started, reports, screen, hands };
}

/** The same worked out here. */
async function here(scene: Scene): Promise<Forecasting> {
  const forecaster = createForecaster({
    kitchen: () => scene.kitchen,
    nowMs: () => scene.nowMs,
    defer: setImmediate,
    monotonicMs: () => performance.now(),
    publish: () => undefined,
    planner: PLAN_IN_TURN,
  });
  ends.push(forecaster.stop);
  await forecaster.idle();
  return forecaster;
}

function laid(): Scene {
  const scene = aKitchen();
  scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct: 60, source: "typed" } });
  scene.act("flooded", { trayId: "t2" });
  return scene.later(HOUR);
}

const takeBackFirstLayer = (scene: Scene, trayId: string): string =>
  scene.act("take-back", { trayId, actId: scene.kitchen.trays[trayId]!.films[0]!.actId });

/** What a screen holds must be what the thread does, row by row. */
async function expectLevel(
  { forecasting, screen }: ReturnType<typeof onThread>,
  scene: Scene,
): Promise<void> {
  await forecasting.idle();
  const own = await here(scene);
  expect(forecasting.current()).toEqual(own.current());
  expect(screen.seen).toEqual(own.current());
  expect(await forecasting.plan()).toEqual(own.plan());
}

test("forecasts, plan and advice of a thread of their own say what they say in turn", async () => {
  const scene = laid();
  const thread = onThread(scene);
  await expectLevel(thread, scene);
  expect(thread.forecasting.current().films["t2/0"]).toBeDefined();
  const own = await here(scene);
  expect(await thread.forecasting.advise({ orderId: "walk" })).toEqual(await own.advise({ orderId: "walk" }));
  expect(await thread.forecasting.makeUpStart("walk")).toEqual(await own.makeUpStart("walk"));
}, 30_000);

test("the thread follows what happens, event by event, and a kitchen that is another altogether", async () => {
  const scene = laid();
  const thread = onThread(scene);
  await thread.forecasting.idle();
  const act = (type: Parameters<Scene["act"]>[0], fields: object): void => {
    const before = scene.events.length;
    scene.act(type, fields);
    thread.forecasting.touch(scene.events.slice(before));
  };
  act("flooded", { trayId: "t1" });
  act("leave-note", { text: "Ribbon for the lanterns." });
  act("flooded", { trayId: "t3" });
  await expectLevel(thread, scene);
  expect(thread.forecasting.current().films["t3/0"]).toBeDefined();
  takeBackFirstLayer(scene, "t3");
  thread.forecasting.startOver();
  await expectLevel(thread, scene);
  expect(thread.forecasting.current().films["t3/0"]).toBeUndefined();
}, 30_000);

test("P46 a thread that dies is said and started anew with the kitchen as it stands; the old forecasts stand meanwhile", async () => {
  const scene = laid();
  const thread = onThread(scene);
  await thread.forecasting.idle();
  const before = thread.forecasting.current();
  const died = new Promise((resolve) => thread.started[0]!.once("exit", resolve));
  await thread.started[0]!.terminate();
  await died;
  expect(thread.reports).toEqual([expect.stringContaining("thread that works out forecasts died")]);
  expect(thread.forecasting.current()).toBe(before);
  // Nobody tells a thread that is not there.
  takeBackFirstLayer(scene, "t2");
  scene.act("flooded", { trayId: "t3" });
  thread.forecasting.touch(scene.events.slice(-2));
  const asked = thread.forecasting.advise({ orderId: "walk" });
  expect(thread.started).toHaveLength(1);
  thread.hands.advance(5000);
  expect(thread.started).toHaveLength(2);
  expect(await asked).toEqual(await (await here(scene)).advise({ orderId: "walk" }));
  await expectLevel(thread, scene);
  expect(thread.screen.seen.films["t2/0"]).toBeUndefined();
}, 30_000);

test("where every thread dies the server opens without forecasts, and what was asked is given up", async () => {
  const thread = onThread(laid(), () => {
    const worker = startThread();
    worker.once("online", () => void worker.terminate());
    return worker;
  });
  const refused = expect(thread.forecasting.advise({ orderId: "walk" })).rejects.toThrow("exit code");
  const opened = thread.forecasting.idle();
  const gone = async (count: number): Promise<void> => {
    while (thread.reports.length < count) await new Promise(setImmediate);
  };
  await gone(1);
  thread.hands.advance(4999);
  expect(thread.started).toHaveLength(1);
  thread.hands.advance(1);
  await gone(2);
  await refused;
  await opened;
  expect(thread.forecasting.current()).toBe(NO_FORECASTS);
}, 30_000);
