import type { Formats } from "#shared/words/formats.ts";

/** Setting up the kitchen, places and tools. */
export const setUp = (_format: Formats) => ({});
