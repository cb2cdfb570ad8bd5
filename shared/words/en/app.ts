import type { Formats } from "#shared/words/formats.ts";

/** Joining, connection, navigation, forms and questions of the phone. */
export const app = (_format: Formats) => ({});
