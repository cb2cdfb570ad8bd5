import { decideBy, undoBy } from "#shared/kitchen/commands/decide-by.ts";
import type { DecideContext, Decision } from "#shared/kitchen/commands/deciding.ts";
import { FIRST_COMMANDS } from "#shared/kitchen/commands/first-commands.ts";
import type { Command, CommandInput } from "#shared/kitchen/model/command.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { ok, type Outcome } from "#shared/outcome.ts";
import type { BadField } from "#shared/fields.ts";

/** What a screen decides for itself, so that a tap is shown at once. The server decides again. */
export interface Decider {
  /** The command, where its fields are as they must be. */
  check: (command: Command) => Outcome<Command, BadField>;
  /** Undefined of a command that cannot be decided here yet: it waits for the server's word. */
  decide: (kitchen: Kitchen, command: Command, context: DecideContext) => Decision | undefined;
  undoOf: (command: Command, before: Kitchen) => CommandInput | undefined;
}

/** For a phone's first screen: its buttons make commands of known fields, so that no schema need be there. */
export const FIRST_DECIDER: Decider = {
  check: ok,
  decide: (...of) => decideBy(FIRST_COMMANDS, ...of),
  undoOf: (...of) => undoBy(FIRST_COMMANDS, ...of),
};
