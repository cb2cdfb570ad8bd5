import type { Formats } from "#shared/words/formats.ts";

/** The wall. */
export const wall = (_format: Formats) => ({});
