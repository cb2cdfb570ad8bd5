import type { Formats } from "#shared/words/formats.ts";

/** The room: people, places' air, hygrometers, readings. */
export const room = (_format: Formats) => ({});
