import { parentPort } from "node:worker_threads";
import { outlookSteps, planSteps } from "#shared/kitchen/plan/plan.ts";
import { atOnce } from "#shared/steps.ts";
import type { PlanAnswer, PlanJob } from "./worker-planner.ts";
import { yieldToOthers } from "./yield-to-others.ts";
import { asError } from "#server/error-message.ts";

yieldToOthers();

/** The thread that plans are worked out on: one question after another, each to its end. */
parentPort?.on("message", ({ id, question, subject }: PlanJob) => {
  try {
    const result =
      subject === undefined ? atOnce(planSteps(question)) : atOnce(outlookSteps(question, subject));
    answer({ id, result });
  } catch (error) {
    answer({ id, error: asError(error) });
  }
});

const answer = (message: PlanAnswer): void => parentPort?.postMessage(message, []);
