import type { WhyNever } from "#shared/drying/film/film.ts";
import { SECOND_MS } from "#shared/time.ts";

/** 10th, 50th and 90th percentile of when something is reached, ms: as moments, or as spans from a clock's start. */
export interface ReachedBand {
  earliestMs: number;
  likelyMs: number;
  latestMs: number;
  /** The latest is that far off or farther: forecasts look no farther ahead. */
  latestOrMore?: true;
}

/** A forecast of when something is reached, or why it never is. */
export type Band = ReachedBand | { never: WhyNever };

/** Whether a forecast is known, and comes at all. */
export const isReached = (band: Band | undefined): band is ReachedBand =>
  band !== undefined && !("never" in band);

/** Each of its times changed alike. */
export function mapBand(band: Band, change: (ms: number) => number): Band {
  if ("never" in band) return band;
  const { earliestMs, likelyMs, latestMs } = band;
  return { ...band, earliestMs: change(earliestMs), likelyMs: change(likelyMs), latestMs: change(latestMs) };
}

/** A span from a clock's start as moments, to the second. */
export const momentsOf = (span: Band, startMs: number): Band =>
  mapBand(span, (ms) => startMs + Math.round(ms / SECOND_MS) * SECOND_MS);

/** A span to a tenth of a minute: what is sent moves no more often than it is shown to. */
export const roundedSpan = (span: Band): Band =>
  mapBand(span, (ms) => Math.round(ms / (6 * SECOND_MS)) * 6 * SECOND_MS);
