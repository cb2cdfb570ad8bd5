import { parse } from "#shared/fields.ts";
import { decide, undoOf } from "#shared/kitchen/commands/decide.ts";
import { Command } from "#shared/kitchen/model/command.ts";
import type { Decider } from "./decider.ts";

/** Decides every command, by its schema. */
export const WHOLE_DECIDER: Decider = { check: (command) => parse(Command, command), decide, undoOf };
