import type { Formats } from "#shared/words/formats.ts";

/** The server's console, its HTTP answers, its health. */
export const server = (_format: Formats) => ({});
