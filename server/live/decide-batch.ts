import { drawingFault } from "#shared/drawing/make-drawing.ts";
import { decide } from "#shared/kitchen/commands/decide.ts";
import type { Decision } from "#shared/kitchen/commands/deciding.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { withImpliedFactors } from "#shared/kitchen/forecast/implied-factors.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import { asError, errorMessage } from "#server/error-message.ts";
import { commandSha256 } from "#server/log/command-hash.ts";
import type { Decided, Given } from "#server/log/event-log.ts";
import type { Report } from "#server/words.ts";
import type { Actor } from "./actor.ts";
import type { AlertRules } from "./alert-rules.ts";

/** A command whose sender waits for the answer. */
export interface Waiting {
  command: Command;
  actor: Actor;
  resolve: (answer: CommandAnswer) => void;
  reject: (error: Error) => void;
}

/** Where the kitchen stands before a batch, and the moment it is decided at. */
interface Start {
  kitchen: Kitchen;
  seq: number;
  nowMs: number;
  /** What commands were answered before. */
  answers: ReadonlyMap<string, Given>;
}

/** What a batch comes to once it is appended. */
export interface DecidedBatch {
  kitchen: Kitchen;
  decided: readonly Decided[];
  events: readonly KitchenEvent[];
  /** Gives each sender the answer. */
  settle: () => void;
}

interface BatchDeciderDeps {
  forecasts: () => Forecasts;
  alerts: Pick<AlertRules, "noting">;
  report: Report;
}

const ID_TAKEN: CommandAnswer = { ok: false, reason: "taken", fact: { code: "id-used" } };

/** Who asks for what, for when the same command comes again. */
const askedBy = (command: Command, { deviceId }: Actor): Pick<Given, "deviceId" | "sha256"> => ({
  sha256: commandSha256(command),
  ...(deviceId !== undefined && { deviceId }),
});

/** Whether a command that comes again is the one that was answered, by all that is known of that one. */
const isSameCommand = (before: Given, asked: Pick<Given, "deviceId" | "sha256">): boolean =>
  before.sha256 === undefined || (before.sha256 === asked.sha256 && before.deviceId === asked.deviceId);

/** Decides the commands of a batch in order, each against what those before it made of the kitchen. */
export function batchDecider({ forecasts, alerts, report }: BatchDeciderDeps) {
  /** Commands that fail now, and why: said once a spell, as the kitchen's own come four times a second. */
  const failing = new Map<Command["type"], string>();

  function decideOne(kitchen: Kitchen, { command, actor }: Waiting, nowMs: number): Decision {
    const context = { isOwnDevice: true, ...actor, nowMs, forecasts: forecasts(), drawingFault };
    return command.type === "reconcile-alerts"
      ? alerts.noting((looking) => decide(kitchen, command, { ...context, ...looking }))
      : decide(kitchen, command, context);
  }

  function fails({ type }: Command, error: unknown): Error {
    if (failing.get(type) !== errorMessage(error))
      report(({ server }) => server.log.decisionFailed(type), error);
    failing.set(type, errorMessage(error));
    return asError(error);
  }

  return (
    batch: readonly Waiting[],
    { kitchen: start, seq, nowMs, answers: before }: Start,
  ): DecidedBatch => {
    const answers = new Map(before);
    const decided: Decided[] = [];
    const events: KitchenEvent[] = [];
    const settled: (() => void)[] = [];
    let kitchen = start;
    for (const waiting of batch) {
      const { command, actor, resolve, reject } = waiting;
      const given = answers.get(command.commandId);
      if (given !== undefined) {
        const again = isSameCommand(given, askedBy(command, actor)) ? given.answer : ID_TAKEN;
        settled.push(() => resolve(again));
        continue;
      }
      try {
        const state = kitchen;
        const decision = decideOne(state, waiting, nowMs);
        const happened = decision.ok ? decision.value.map((event) => withImpliedFactors(state, event)) : [];
        kitchen = happened.reduce(evolve, state);
        events.push(...happened);
        const answer: CommandAnswer = decision.ok
          ? { ok: true, seq: seq + events.length }
          : { ok: false, ...decision.refusal };
        // Looking for alerts, the kitchen mostly finds nothing new: of that no trace is left.
        if (happened.length > 0 || actor.role !== "kitchen") {
          const asked = { answer, ...askedBy(command, actor) };
          answers.set(command.commandId, asked);
          decided.push({ commandId: command.commandId, events: happened, ...asked });
        }
        settled.push(() => resolve(answer));
        failing.delete(command.type);
      } catch (error) {
        const failed = fails(command, error);
        settled.push(() => reject(failed));
      }
    }
    return { kitchen, decided, events, settle: () => settled.forEach((settle) => settle()) };
  };
}
