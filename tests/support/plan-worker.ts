import { Worker } from "node:worker_threads";

/** The plan's thread from its source. */
export const startPlanWorker = (): Worker =>
  new Worker(new URL("../../server/forecast/plan-worker.mjs", import.meta.url));
