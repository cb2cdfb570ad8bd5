import type { Formats } from "#shared/words/formats.ts";

/** Why a command was refused. */
export const refusals = (_format: Formats) => ({});
