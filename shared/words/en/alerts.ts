import type { Formats } from "#shared/words/formats.ts";

/** Alerts: what is wrong and what to do. */
export const alerts = (_format: Formats) => ({});
