import type { Formats } from "#shared/words/formats.ts";

/** A tray and the list of trays on the phone. */
export const trays = (_format: Formats) => ({});
