import { parentPort, Worker } from "node:worker_threads";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { systemTimers } from "#server/live/clock.ts";
import { consoleWords, type Report } from "#server/words.ts";
import { createForecaster, type Forecaster } from "./forecaster.ts";
import type { FromThread, ToThread } from "./thread-messages.ts";
import { workerPlanner } from "./worker-planner.ts";
import { yieldToOthers } from "./yield-to-others.ts";
import { asError } from "#server/error-message.ts";

// The thread that forecasts are worked out on. It holds a kitchen of its own, level with the server's by the events that it is told, so
// that the server's thread is free for whoever taps.

/** The plan's thread, as it is written or beside this file as it is built. */
const PLAN_WORKER = import.meta.url.endsWith(".ts") ? "./plan-worker.mjs" : "./plan-worker.js";

yieldToOthers();

const tell = (message: FromThread): void => parentPort?.postMessage(message, []);
const words = consoleWords(process.env);
const report: Report = (say, cause) =>
  tell({ is: "report", line: say(words), ...(cause !== undefined && { cause: asError(cause) }) });

const planner = workerPlanner({ start: () => new Worker(new URL(PLAN_WORKER, import.meta.url)), report });

let held: { kitchen: Kitchen; forecaster: Forecaster } | undefined;
/** The kitchen's time as last told, and this thread's own then. */
let told = { nowMs: 0, atMs: 0 };

function hold(kitchen: Kitchen, speed: number): void {
  if (held !== undefined) {
    held.kitchen = kitchen;
    held.forecaster.startOver();
    return;
  }
  const own = { kitchen };
  const forecaster = createForecaster({
    kitchen: () => own.kitchen,
    nowMs: () => Math.round(told.nowMs + (performance.now() - told.atMs) * speed),
    defer: setImmediate,
    monotonicMs: () => performance.now(),
    publish: (patch) => tell({ is: "patch", patch }),
    planner,
    after: systemTimers.after,
    report,
  });
  held = Object.assign(own, { forecaster });
}

function answerTo(
  { forecaster }: { forecaster: Forecaster },
  ask: ToThread & { is: "ask" },
): Promise<(FromThread & { is: "answer" })["answer"]> {
  switch (ask.what) {
    case "advice":
      return forecaster.advise(ask.of);
    case "makeUpStart":
      return forecaster.makeUpStart(ask.of);
    case "plan":
      return Promise.resolve(forecaster.plan());
    case "forecasts":
      return forecaster.idle().then(forecaster.current);
    default:
      return unreachable(ask);
  }
}

parentPort?.on("message", (message: ToThread) => {
  told = { nowMs: message.nowMs, atMs: performance.now() };
  if (message.is === "kitchen") return hold(message.kitchen, message.speed);
  // It is told of the kitchen before all else.
  if (held === undefined) return;
  if (message.is === "events") {
    held.kitchen = message.events.reduce(evolve, held.kitchen);
    held.forecaster.touch(message.events);
  } else if (message.is === "refresh") held.forecaster.refresh();
  else {
    const { id } = message;
    answerTo(held, message).then(
      (answer) => tell({ is: "answer", id, answer }),
      (error: unknown) => tell({ is: "failed", id, error: asError(error) }),
    );
  }
});
