import type { Formats } from "#shared/words/formats.ts";

/** Why something never dries, and what the air does. */
export const drying = (_format: Formats) => ({});
