import type { Formats } from "#shared/words/formats.ts";

/** Icing to mix, batches, water to stir in. */
export const icing = (_format: Formats) => ({});
