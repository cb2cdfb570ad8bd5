import type { Formats } from "#shared/words/formats.ts";

/** Orders, and what would help them. */
export const orders = (_format: Formats) => ({});
