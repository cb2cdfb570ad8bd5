import { formatSpan } from "#shared/units.ts";

/** How long something has waited, ms: "now", "12 min", "1 h 20". */
export const sayWait = (waitMs: number): string =>
  waitMs < 60_000 ? "now" : formatSpan(Math.floor(waitMs / 60_000));
