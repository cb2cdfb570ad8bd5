import type { Formats } from "#shared/words/formats.ts";

/** Cautions for heat tools, and first aid. */
export const cautions = (_format: Formats) => ({});
