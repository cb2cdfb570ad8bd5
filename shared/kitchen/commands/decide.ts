import type { Command, CommandInput } from "#shared/kitchen/model/command.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { decideBy, undoBy } from "./decide-by.ts";
import type { DecideContext, Decision } from "./deciding.ts";
import { COMMAND_TABLE } from "./table.ts";

export type { DecideContext, Decision } from "./deciding.ts";

/**
 * The single place where a command becomes events, or a refusal, as its row in the table says. Throws only for bugs.
 * `atMs` may lie up to 5 s ahead of the kitchen's clock (then it counts as now) and 12 h back.
 */
export const decide = (kitchen: Kitchen, command: Command, context: DecideContext): Decision =>
  decideBy(COMMAND_TABLE, kitchen, command, context) ?? unreachable(command.type as never);

/** What undoes a command that was sent, by the kitchen as it was before. */
export const undoOf = (command: Command, before: Kitchen): CommandInput | undefined =>
  undoBy(COMMAND_TABLE, command, before);
