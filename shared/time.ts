/** Spans of time, ms. */
export const SECOND_MS = 1000;
export const MIN_MS = 60 * SECOND_MS;
export const HOUR_MS = 60 * MIN_MS;
export const DAY_MS = 24 * HOUR_MS;
