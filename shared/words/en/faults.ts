import type { Formats } from "#shared/words/formats.ts";

/** What a field must be. */
export const faults = (_format: Formats) => ({});
