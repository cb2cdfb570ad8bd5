import type { Formats } from "#shared/words/formats.ts";

/** Heat-setting and tools on the phone. */
export const heat = (_format: Formats) => ({});
