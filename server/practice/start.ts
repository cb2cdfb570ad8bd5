import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import type { Timers } from "#server/live/clock.ts";
import type { Report } from "#server/words.ts";
import { type KitchenService, NotSaved } from "#server/live/kitchen-service.ts";
import type { Practice } from "./practice.ts";
import type { Stage } from "./scheduler.ts";

export interface StartPracticeDeps {
  practice: Practice;
  service: Pick<KitchenService, "kitchen" | "submit">;
  forecasts: () => Forecasts;
  /** The kitchen's clock. */
  clock: { nowMs: () => number };
  timers: Pick<Timers, "every">;
  report: Report;
}

export interface RunningPractice {
  /** Plays everything due by now; resolves when it is done. Does nothing while an earlier step is still at it. */
  step: (nowMs: number) => Promise<void>;
  stop: () => void;
}

const STEP_EVERY_MS = 100;
const NOT_SAVED: CommandAnswer = { ok: false, reason: "too-late", fact: { code: "not-saved" } };

/** Sets the people of a practice kitchen to work on a server, beside whoever joins. */
export function startPractice(deps: StartPracticeDeps): RunningPractice {
  const { practice, service, report } = deps;
  const stage: Stage = {
    kitchen: service.kitchen,
    forecasts: deps.forecasts,
    submit: async (command, actor) => {
      try {
        return await service.submit(command, actor);
      } catch (error) {
        if (!(error instanceof NotSaved)) report(({ server }) => server.log.practiceFault, error);
        return NOT_SAVED;
      }
    },
  };
  let isPlaying = false;
  let isStopped = false;

  async function step(nowMs: number): Promise<void> {
    if (isPlaying || isStopped) return;
    isPlaying = true;
    try {
      await practice.scheduler.playUntil(stage, nowMs);
    } catch (error) {
      report(({ server }) => server.log.practicePaused, error);
    } finally {
      isPlaying = false;
    }
  }

  const stopStepping = deps.timers.every(STEP_EVERY_MS, () => void step(deps.clock.nowMs()));
  return {
    step,
    stop: () => {
      isStopped = true;
      stopStepping();
    },
  };
}
