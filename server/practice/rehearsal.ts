import { withImpliedFactors } from "#shared/kitchen/forecast/implied-factors.ts";
import { asId } from "#shared/ids.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import { decide } from "#shared/kitchen/commands/decide.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import { type Actor, KITCHEN } from "#server/live/actor.ts";
import type { Decided } from "#server/log/event-log.ts";
import { makePractice, type Practice, type PracticeOptions } from "./practice.ts";
import { type Forecasting, quickForecasts } from "./quick-forecasts.ts";
import type { Stage } from "./scheduler.ts";
import { MIN_MS } from "#shared/time.ts";

export interface RehearsalOptions {
  /** `quickForecasts` when left out. */
  forecasting?: (kitchen: () => Kitchen, nowMs: () => number) => Forecasting;
  /** Kitchen time between refreshed forecasts, and between looks at the alerts. */
  refreshEveryMs?: number;
  tendEveryMs?: number;
}

/** A practice kitchen played on the bare core, by a clock that jumps from one moment to the next and waits for nothing. */
export interface Rehearsal {
  /** Plays on until this moment. */
  playUntil: (untilMs: number) => Promise<void>;
  kitchen: () => Kitchen;
  forecasts: () => Forecasts;
  nowMs: () => number;
  /** Everything decided so far, in order, as a log takes it. */
  decided: () => readonly Decided[];
}

export function rehearse(practice: Practice, options: RehearsalOptions = {}): Rehearsal {
  const { refreshEveryMs = 5 * MIN_MS, tendEveryMs = 2 * MIN_MS } = options;
  const decided: Decided[] = [];
  let kitchen = EMPTY_KITCHEN;
  let nowMs = practice.furnishedMs;
  let seq = 0;
  let tends = 0;
  const next = { refreshMs: practice.beginsMs, tendMs: practice.beginsMs };
  const forecasting = (options.forecasting ?? quickForecasts)(
    () => kitchen,
    () => nowMs,
  );

  async function submit(command: Command, actor: Actor): Promise<CommandAnswer> {
    const decision = decide(kitchen, command, { nowMs, ...actor, forecasts: forecasting.current() });
    const before = kitchen;
    const events = decision.ok ? decision.value.map((event) => withImpliedFactors(before, event)) : [];
    kitchen = events.reduce(evolve, kitchen);
    seq += events.length;
    const answer: CommandAnswer = decision.ok ? { ok: true, seq } : { ok: false, ...decision.refusal };
    if (events.length > 0 || actor.by !== "kitchen")
      decided.push({ commandId: command.commandId, answer, events });
    forecasting.touch(events);
    await forecasting.idle();
    return answer;
  }
  const stage: Stage = { kitchen: () => kitchen, forecasts: forecasting.current, submit };

  return {
    kitchen: () => kitchen,
    forecasts: forecasting.current,
    nowMs: () => nowMs,
    decided: () => decided,
    playUntil: async (untilMs) => {
      while (nowMs < untilMs) {
        nowMs = Math.min(untilMs, next.refreshMs, next.tendMs, Math.max(nowMs, practice.scheduler.nextMs()));
        if (nowMs >= next.refreshMs) {
          next.refreshMs = nowMs + refreshEveryMs;
          forecasting.refresh();
          await forecasting.idle();
        }
        if (nowMs >= next.tendMs) {
          next.tendMs = nowMs + tendEveryMs;
          await submit({ type: "reconcile-alerts", commandId: asId(`tend-${(tends += 1)}`) }, KITCHEN);
        }
        await practice.scheduler.playUntil(stage, nowMs);
      }
    },
  };
}

/** A practice kitchen with its history behind it, as it stands when people first see it. */
export async function rehearsedPractice(
  options: PracticeOptions,
): Promise<{ practice: Practice; rehearsal: Rehearsal }> {
  const practice = makePractice(options);
  const rehearsal = rehearse(practice);
  await rehearsal.playUntil(practice.opensMs);
  return { practice, rehearsal };
}
