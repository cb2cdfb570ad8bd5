import type { CommandId, TrayId } from "#shared/ids.ts";
import type { CommandInput, CommandOf, CommandType } from "#shared/kitchen/model/command.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import type { Deciding, Decision } from "./deciding.ts";

/** All there is to know of a command besides its schema (`model/command.ts`). */
export interface Definition<Type extends CommandType> {
  /** Who may send it besides the server itself. None named, none allowed. */
  senders: readonly Role[];
  /** What undoes it, by the kitchen as it was before; undefined where nothing does. */
  undo: (command: CommandOf<Type>, before: Kitchen) => CommandInput | undefined;
  decide: (command: CommandOf<Type>, deciding: Deciding) => Decision;
}

export const nobody: readonly Role[] = [];
export const leads: readonly Role[] = ["lead"];
export const team: readonly Role[] = ["lead", "decorator"];
export const teamAndSensors: readonly Role[] = ["lead", "decorator", "sensor"];

export const noUndo = (): undefined => undefined;
/** Of an act on a tray: a mark in its history. */
export const takeBack = ({ trayId, commandId }: { trayId: TrayId; commandId: CommandId }): CommandInput => ({
  type: "take-back",
  trayId,
  actId: commandId,
});

export type CommandTable = { readonly [Type in CommandType]: Definition<Type> };
