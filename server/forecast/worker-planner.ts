import type { Worker } from "node:worker_threads";
import type { DayPlan, Outlook, PlanSubject } from "#shared/kitchen/plan/plan.ts";
import type { PlanQuestion } from "#shared/kitchen/plan/plan-work.ts";
import type { Steps } from "#shared/steps.ts";
import type { Report } from "#server/words.ts";
import type { Planner } from "./planner.ts";
import { threadQuestions } from "./thread-questions.ts";
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

/** Plans on a thread of their own. One that dies is started anew, and asked again what it had not answered. */
export function workerPlanner({ start, report }: WorkerPlannerDeps): Planner & { stop: () => void } {
  const questions = threadQuestions<Omit<PlanJob, "id">, DayPlan | Outlook>((id, job) => {
    worker ??= started();
    worker.postMessage({ id, ...job } satisfies PlanJob, []);
    return true;
  });
  let isStopped = false;
  let worker: Worker | undefined = started();

  function started(): Worker {
    const own = start();
    let cause: unknown;
    own.on("message", (answer: PlanAnswer) => {
      if ("error" in answer) questions.failed(answer.id, answer.error);
      else questions.answered(answer.id, answer.result);
    });
    own.on("error", (error) => (cause = error));
    own.on("exit", (code) => {
      if (isStopped) return;
      const died = asError(cause ?? new Error(`exit code ${code}`));
      report(({ server }) => server.log.planThreadDied, died);
      worker = undefined;
      questions.giveUp(died);
      questions.askAgain();
    });
    return own;
  }

  function* ask<Result extends Outlook>(question: PlanQuestion, subject?: PlanSubject): Steps<Result> {
    const given: { result?: Outlook; error?: Error } = {};
    // Copying the question takes a step of its own.
    yield;
    const comes = questions.ask({ question, ...(subject && { subject }) }).then(
      (result) => void (given.result = result),
      (error: Error) => void (given.error = error),
    );
    while (given.result === undefined && given.error === undefined) yield comes;
    if (given.error !== undefined) throw given.error;
    return given.result as Result;
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
