import type { Worker } from "node:worker_threads";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Timers } from "#server/live/clock.ts";
import type { Report } from "#server/words.ts";
import type { Forecasting, ForecastingHost } from "./forecasting.ts";
import { heldForecasts } from "./held-forecasts.ts";
import type { Asks, FromThread, Question, ToThread } from "./thread-messages.ts";
import { threadQuestions } from "./thread-questions.ts";
import { TOUCHED } from "./touched.ts";
import { asError } from "#server/error-message.ts";

export interface WorkerForecastingDeps {
  /** Starts a thread that runs `forecast-worker.ts`. */
  start: () => Worker;
  /** A real clock that only goes forward, ms. */
  monotonicMs: () => number;
  after: Timers["after"];
  report: Report;
}

type Told<Message> = Message extends unknown ? Omit<Message, "nowMs"> : never;

/** After a thread that died so soon, the next one waits as long. */
const SOON_MS = 5000;

/**
 * Forecasts on a thread of their own, started at once, so that it loads while the log is read. It is told of the kitchen, then of every
 * event. One that dies is started anew with the kitchen as it stands; until its forecasts stand, the old ones do.
 */
export function workerForecasting(deps: WorkerForecastingDeps): (host: ForecastingHost) => Forecasting {
  const { report } = deps;
  const held = heldForecasts();
  const questions = threadQuestions<Question, Asks[keyof Asks]["answer"]>(put);
  /** What happened since it was last told; what bears on no forecast waits until something does, and wakes it for nothing else. */
  let untold: KitchenEvent[] = [];
  let host: ForecastingHost | undefined;
  let isStopped = false;
  let stopWaiting = (): void => undefined;
  let worker: Worker | undefined = started();

  function started(): Worker {
    const own = deps.start();
    const startMs = deps.monotonicMs();
    let cause: unknown;
    own.on("message", hear);
    own.on("error", (error) => (cause = error));
    own.on("exit", (code) => {
      if (isStopped) return;
      worker = undefined;
      const died = asError(cause ?? new Error(`exit code ${code}`));
      report(({ server }) => server.log.forecastThreadDied, died);
      questions.giveUp(died);
      if (deps.monotonicMs() - startMs < SOON_MS) stopWaiting = deps.after(SOON_MS, startAnew);
      else startAnew();
    });
    return own;
  }

  function startAnew(): void {
    worker = started();
    tellKitchen();
    questions.askAgain();
    // Whole, since rows of what is gone meanwhile go too.
    ask("forecasts", null).then(
      ({ change = null, ...all }) => publish({ ...all, change, isWhole: true }),
      () => undefined,
    );
  }

  const publish: ForecastingHost["publish"] = (patch) => {
    held.put(patch);
    host?.publish(patch);
  };

  function hear(message: FromThread): void {
    if (message.is === "patch") return publish(message.patch);
    if (message.is === "report") return report(() => message.line, message.cause);
    if (message.is === "answer") questions.answered(message.id, message.answer);
    else questions.failed(message.id, message.error);
  }

  function tell(message: Told<ToThread>): void {
    if (host !== undefined) worker?.postMessage({ ...message, nowMs: host.clock.nowMs() }, []);
  }

  function tellKitchen(): void {
    untold = [];
    if (host !== undefined) tell({ is: "kitchen", kitchen: host.kitchen(), speed: host.clock.fact.speed });
  }

  function touch(events: readonly KitchenEvent[]): void {
    untold.push(...events);
    if (events.some(({ type }) => TOUCHED[type] !== "nothing")) tellUntold();
  }

  function tellUntold(): void {
    if (untold.length > 0) tell({ is: "events", events: untold });
    untold = [];
  }

  function put(id: number, question: Question): boolean {
    if (worker === undefined) return false;
    tellUntold();
    tell({ is: "ask", id, ...question });
    return true;
  }

  const ask = <Name extends keyof Asks>(what: Name, of: Asks[Name]["of"]): Promise<Asks[Name]["answer"]> =>
    questions.ask({ what, of } as Question);

  return (forHost) => {
    host = forHost;
    tellKitchen();
    return {
      current: held.current,
      touch,
      refresh: () => {
        tellUntold();
        tell({ is: "refresh" });
      },
      startOver: tellKitchen,
      advise: (subject) => ask("advice", subject),
      makeUpStart: (orderId) => ask("makeUpStart", orderId),
      plan: () => ask("plan", null),
      // Where there can be no forecasts, the server opens without.
      idle: () =>
        ask("forecasts", null).then(
          () => undefined,
          () => undefined,
        ),
      stop: () => {
        isStopped = true;
        stopWaiting();
        void worker?.terminate();
      },
    };
  };
}
