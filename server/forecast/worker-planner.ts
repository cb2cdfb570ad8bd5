import type { Worker } from "node:worker_threads";
import type { DayPlan, Outlook, PlanSubject } from "#shared/kitchen/plan/plan.ts";
import type { PlanQuestion } from "#shared/kitchen/plan/plan-work.ts";
import type { Steps } from "#shared/steps.ts";
import type { Report } from "#server/words.ts";
import type { Planner } from "./planner.ts";
import { asError } from "#server/error-message.ts";

/** What the thread is sent, and what it sends back. */
export interface PlanJob {
  id: number;
  question: PlanQuestion;
  /** Whose outlook is asked for; the whole plan when left out. */
  subject?: PlanSubject;
}
export type PlanAnswer = { id: number } & ({ result: DayPlan | Outlook } | { error: Error });

export interface WorkerPlannerDeps {
  /** Starts a thread that runs `plan-worker.ts`. */
  start: () => Worker;
  report: Report;
}

interface Asked {
  job: PlanJob;
  /** Threads that were asked so far. */
  threads: number;
  answer: (answer: PlanAnswer) => void;
}

/** A question that two threads died of is not put to a third. */
const THREADS_MOST = 2;

/** Plans on a thread of their own. One that dies is started anew, and asked again what it had not answered. */
export function workerPlanner({ start, report }: WorkerPlannerDeps): Planner & { stop: () => void } {
  const asked = new Map<number, Asked>();
  let newest = 0;
  let isStopped = false;
  let worker: Worker | undefined = started();

  function started(): Worker {
    const own = start();
    let cause: unknown;
    own.on("message", (answer: PlanAnswer) => {
      const known = asked.get(answer.id);
      asked.delete(answer.id);
      known?.answer(answer);
    });
    own.on("error", (error) => (cause = error));
    own.on("exit", (code) => {
      if (isStopped) return;
      const died = cause ?? new Error(`exit code ${code}`);
      report(({ server }) => server.log.planThreadDied, died);
      worker = undefined;
      askAgain(died);
    });
    return own;
  }

  function askAgain(died: unknown): void {
    for (const [id, one] of asked) {
      if (one.threads < THREADS_MOST) put(one);
      else {
        asked.delete(id);
        one.answer({ id, error: asError(died) });
      }
    }
  }

  function put(one: Asked): void {
    one.threads += 1;
    worker ??= started();
    worker.postMessage(one.job, []);
  }

  function* ask<Result extends Outlook>(question: PlanQuestion, subject?: PlanSubject): Steps<Result> {
    const id = (newest += 1);
    const given: { answer?: PlanAnswer } = {};
    // Copying the question takes a step of its own.
    yield;
    const comes = new Promise<void>((resolve) => {
      const answer = (one: PlanAnswer): void => {
        given.answer = one;
        resolve();
      };
      const one = { job: { id, question, ...(subject && { subject }) }, threads: 0, answer };
      asked.set(id, one);
      put(one);
    });
    while (given.answer === undefined) yield comes;
    if ("error" in given.answer) throw given.answer.error;
    return given.answer.result as Result;
  }

  return {
    plan: (question) => ask<DayPlan>(question),
    outlook: (question, subject) => ask<Outlook>(question, subject),
    stop: () => {
      isStopped = true;
      void worker?.terminate();
    },
  };
}
