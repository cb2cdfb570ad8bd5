import { formatSpan } from "#shared/units.ts";
import { MIN_MS } from "#shared/time.ts";

/** How long something has waited, ms: "now", "12 min", "1 h 20". */
export const sayWait = (waitMs: number): string =>
  waitMs < MIN_MS ? "now" : formatSpan(Math.floor(waitMs / MIN_MS));
