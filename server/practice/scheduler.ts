import { asId, type CommandId } from "#shared/ids.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import type { Actor } from "#server/live/actor.ts";
import { MIN_MS, SECOND_MS } from "#shared/time.ts";

type Without<Union, Keys extends PropertyKey> = Union extends unknown ? Omit<Union, Keys> : never;

/** A command before it has an id and a time. */
export type Asked = Without<Command, "commandId" | "atMs">;

/** What came of asking. `actId` is the id it was sent under. */
export interface Outcome {
  ok: boolean;
  actId: CommandId;
}

/** One step of a script: let kitchen time pass, or ask something of the kitchen. */
export type Step = { passMs: number } | { ask: Asked; agoMs: number };

/** What somebody does, step by step. Written as it is lived, driven by the kitchen's clock. */
export type Script<Result = void> = Generator<Step, Result, Outcome>;

/** Lets kitchen time pass. */
export function* pass(ms: number): Script {
  yield { passMs: Math.max(0, Math.round(ms)) };
}

/**
 * Sends a command, of something done so long ago; a refusal is no failure, somebody else was quicker or the kitchen said
 * no.
 */
export function* ask(asked: Asked, agoMs = 0): Script<Outcome> {
  return yield { ask: asked, agoMs };
}

/** Looks again and again until something is so, or this much kitchen time has passed. */
export function* until(isSo: () => boolean, mostMs: number): Script {
  for (let passedMs = 0; !isSo() && passedMs < mostMs; passedMs += SECOND_MS) yield* pass(SECOND_MS);
}

/** The kitchen as its people meet it: a server, or the bare core in a rehearsal. */
export interface Stage {
  kitchen: () => Kitchen;
  forecasts: () => Forecasts;
  submit: (command: Command, actor: Actor) => Promise<CommandAnswer>;
}

/** Who is further behind than this (the machine slept) goes on from here, rather than doing it all at once. */
const BEHIND_MS = 10 * MIN_MS;

interface Performer {
  actor: Actor;
  script: Script;
  wakeMs: number;
}

/** Scripts running side by side on the kitchen's clock, always in the order of their next moment. */
export interface Scheduler {
  enter: (actor: Actor, script: Script, atMs: number) => void;
  /** When somebody next does something; Infinity when nobody will. */
  nextMs: () => number;
  /** The moment of whoever is acting now. */
  momentMs: () => number;
  stage: () => Stage;
  /** Plays everything that is due by `nowMs`, each at its own moment. */
  playUntil: (stage: Stage, nowMs: number) => Promise<void>;
}

/** A scheduler that plays on no stage until told. `idsFrom` starts the ids of its commands. */
export function makeScheduler(idsFrom: string): Scheduler {
  const performers: Performer[] = [];
  let count = 0;
  let momentMs = 0;
  let current: Stage | undefined;

  const next = (): Performer | undefined =>
    performers.reduce<Performer | undefined>(
      (first, one) => (first === undefined || one.wakeMs < first.wakeMs ? one : first),
      undefined,
    );

  /** Plays one performer until time must pass for them. */
  async function play(stage: Stage, performer: Performer): Promise<void> {
    momentMs = performer.wakeMs;
    let told: Outcome = { ok: true, actId: asId(`${idsFrom}-0`) };
    for (;;) {
      const step = performer.script.next(told);
      if (step.done === true) {
        performers.splice(performers.indexOf(performer), 1);
        return;
      }
      if ("passMs" in step.value) {
        performer.wakeMs += step.value.passMs;
        if (step.value.passMs > 0) return;
        continue;
      }
      count += 1;
      const actId = asId<CommandId>(`${idsFrom}-${count}`);
      const atMs = performer.wakeMs - step.value.agoMs;
      const command = { ...step.value.ask, commandId: actId, atMs } as Command;
      told = { ok: (await stage.submit(command, performer.actor)).ok, actId };
    }
  }

  return {
    enter: (actor, script, atMs) => void performers.push({ actor, script, wakeMs: atMs }),
    nextMs: () => next()?.wakeMs ?? Infinity,
    momentMs: () => momentMs,
    stage: () => {
      if (current === undefined) throw new Error("nobody is on stage");
      return current;
    },
    playUntil: async (stage, nowMs) => {
      current = stage;
      for (let due = next(); due !== undefined && due.wakeMs <= nowMs; due = next()) {
        due.wakeMs = Math.max(due.wakeMs, nowMs - BEHIND_MS);
        await play(stage, due);
      }
    },
  };
}
