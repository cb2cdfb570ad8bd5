import { MIN_MS } from "#shared/time.ts";

const HALF_HOUR_MS = 30 * MIN_MS;

/** When a span from now ends, rounded outwards to half hours. */
export const halfHours = (
  nowMs: number,
  { earliestMs, latestMs }: { earliestMs: number; latestMs: number },
): { fromMs: number; toMs: number } => ({
  fromMs: Math.floor((nowMs + earliestMs) / HALF_HOUR_MS) * HALF_HOUR_MS,
  toMs: Math.ceil((nowMs + latestMs) / HALF_HOUR_MS) * HALF_HOUR_MS,
});
