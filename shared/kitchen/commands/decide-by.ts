import { own } from "#shared/collections.ts";
import { LIMITS } from "#shared/limits.ts";
import { refused } from "#shared/outcome.ts";
import type { DecideContext, Deciding, Decision } from "./deciding.ts";
import type { CommandTable } from "./definition.ts";
import type { Command, CommandInput, CommandOf, CommandType } from "#shared/kitchen/model/command.ts";
import { handsHere, hasLeft } from "#shared/kitchen/model/people.ts";
import type { Refusal, RefusalFact } from "#shared/kitchen/model/refusal.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";

/** As `decide`, by a table that may lack some commands: undefined of those. */
export function decideBy(
  table: Partial<CommandTable>,
  kitchen: Kitchen,
  command: Command,
  context: DecideContext,
): Decision | undefined {
  const senders = table[command.type]?.senders;
  if (senders === undefined) return undefined;
  const atMs = Math.min(command.atMs ?? context.nowMs, context.nowMs);
  const barred =
    gone(kitchen, context) ??
    mayNot(senders, context.role) ??
    notForThem(kitchen, command, context) ??
    badTime(command, context.nowMs);
  if (barred !== undefined) return refused(barred);
  const by = command.doneBy ?? context.by;
  const deciding: Deciding = {
    ...context,
    by,
    // A name that was tapped on a bench takes back what was done there alone.
    ...(command.doneBy !== undefined && { isOwnDevice: false }),
    kitchen,
    atMs,
    stamp: {
      atMs,
      by,
      actId: command.commandId,
      ...(context.deviceId !== undefined && { deviceId: context.deviceId }),
    },
  };
  return decideAsDefined(table, command.type, command, deciding);
}

const decideAsDefined = <Type extends CommandType>(
  table: Partial<CommandTable>,
  type: Type,
  command: CommandOf<Type>,
  deciding: Deciding,
): Decision | undefined => table[type]?.decide(command, deciding);

/** What undoes a command that was sent, by the kitchen as it was before; undefined where nothing does, or the table lacks it. */
export const undoBy = (
  table: Partial<CommandTable>,
  command: Command,
  before: Kitchen,
): CommandInput | undefined => undoAsDefined(table, command.type, command, before);

const undoAsDefined = <Type extends CommandType>(
  table: Partial<CommandTable>,
  type: Type,
  command: CommandOf<Type>,
  before: Kitchen,
): CommandInput | undefined => table[type]?.undo(command, before);

function mayNot(senders: readonly Role[], role: DecideContext["role"]): Refusal | undefined {
  if (role === "kitchen" || senders.includes(role)) return undefined;
  return { reason: "not-allowed", fact: { code: senders.length === 0 ? "kitchen-only" : BARRED[role] } };
}

/** What someone is told of a command that others may send. */
const BARRED = {
  lead: "kitchen-only",
  decorator: "leads-only",
  wall: "wall-only-shows",
  sensor: "sensor-only-reads",
} as const satisfies Record<Role, RefusalFact["code"]>;

/** A removed person's taps that were under way count no more. */
function gone(kitchen: Kitchen, { by, role }: DecideContext): Refusal | undefined {
  if (role === "kitchen" || !hasLeft(kitchen, by)) return undefined;
  return { reason: "not-allowed", fact: { code: "removed" } };
}

/** Only a bench screen acts for a person who is here, and only on trays. */
function notForThem(kitchen: Kitchen, command: Command, { by }: DecideContext): Refusal | undefined {
  const { doneBy } = command;
  if (doneBy === undefined) return undefined;
  const isBench = own(kitchen.people, by)?.isBench === true;
  const isHere = handsHere(kitchen).some(({ id }) => id === doneBy);
  return isBench && isHere && "trayId" in command
    ? undefined
    : { reason: "not-allowed", fact: { code: "not-for-others" } };
}

function badTime(command: Command, nowMs: number): Refusal | undefined {
  if (command.atMs === undefined) return undefined;
  if (command.atMs > nowMs + LIMITS.futureMs) return { reason: "bad-time", fact: { code: "in-future" } };
  if (command.atMs < nowMs - LIMITS.pastMs) return { reason: "bad-time", fact: { code: "too-far-back" } };
  return undefined;
}
