import { MIN_MS } from "#shared/time.ts";

const HALF_HOUR_MS = 30 * MIN_MS;

/** When a span from now ends, rounded outwards to half hours. */
export const halfHours = (
  nowMs: number,
  { earliestMin, latestMin }: { earliestMin: number; latestMin: number },
): { fromMs: number; toMs: number } => ({
  fromMs: Math.floor((nowMs + earliestMin * MIN_MS) / HALF_HOUR_MS) * HALF_HOUR_MS,
  toMs: Math.ceil((nowMs + latestMin * MIN_MS) / HALF_HOUR_MS) * HALF_HOUR_MS,
});
