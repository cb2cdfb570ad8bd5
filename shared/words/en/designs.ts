import type { Formats } from "#shared/words/formats.ts";

/** Designs and their layers. */
export const designs = (_format: Formats) => ({});
