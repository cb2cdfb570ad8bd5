import type { Formats } from "#shared/words/formats.ts";

/** The day sheet: what today's air means. */
export const day = (_format: Formats) => ({});
