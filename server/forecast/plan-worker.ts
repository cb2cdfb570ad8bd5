import { parentPort } from "node:worker_threads";
import { outlookSteps, planSteps } from "#shared/kitchen/plan/plan.ts";
import type { PlanAnswer, PlanJob } from "./worker-planner.ts";

/** The thread that plans are worked out on: one question after another, each to its end. */
parentPort?.on("message", ({ id, question, subject }: PlanJob) => {
  try {
    const steps = subject === undefined ? planSteps(question) : outlookSteps(question, subject);
    let step = steps.next();
    while (step.done !== true) step = steps.next();
    answer({ id, result: step.value });
  } catch (error) {
    answer({ id, error: error instanceof Error ? error : new Error(String(error)) });
  }
});

const answer = (message: PlanAnswer): void => parentPort?.postMessage(message, []);
