import { normalTail, TENTH_Z } from "#shared/drying/uncertainty/normal.ts";
import type { Quantiles } from "#shared/drying/uncertainty/forecast.ts";
import { foundAt } from "#shared/kitchen/tray/route.ts";
import type { Film } from "#shared/kitchen/model/state.ts";

type Spread = Exclude<Quantiles, { never: unknown }>;

/** What hands know of one film's time, seconds from its clock's start: reached at a moment, or not yet at one. */
export type Known = { reachedS: number } | { notYetS: number } | undefined;

/** Touch tests and later acts on this very film; the last word counts. */
export function knownOf(film: Film, quantity: "skin" | "dryThrough"): Known {
  const reachedMs = foundAt(film, quantity === "skin" ? "skin" : "dry through");
  const seconds = (atMs: number): number => Math.max(0, (atMs - film.clockStartMs) / 1000);
  if (reachedMs !== undefined) return { reachedS: seconds(reachedMs) };
  const last = film.findings.findLast(({ finding }) => quantity === "dryThrough" || finding === "still wet");
  return last === undefined ? undefined : { notYetS: seconds(last.atMs) };
}

/**
 * The percentiles once hands have touched the film: a found time is a fact; "not yet" cuts the distribution there, and
 * the percentiles are those of what is left of it. Between the given percentiles the distribution is taken as log-normal,
 * with a spread of its own below and above the median.
 */
export function given(quantiles: Quantiles, known: Known): Quantiles {
  if (known === undefined) return quantiles;
  if ("reachedS" in known)
    return { earliestS: known.reachedS, likelyS: known.reachedS, latestS: known.reachedS };
  if ("never" in quantiles || known.notYetS <= 0) return quantiles;
  const left = tailBeyond(quantiles, known.notYetS);
  const at = (share: number): number => Math.max(known.notYetS, timeAtTail(quantiles, share * left));
  return { earliestS: at(0.9), likelyS: at(0.5), latestS: at(0.1) };
}

/** A spread never smaller than this, so that facts do not divide by nought. */
const LEAST_SD = 1e-4;

const sdOf = (nearer: number, farther: number): number =>
  Math.max(LEAST_SD, Math.log(farther / Math.max(nearer, 1e-3)) / TENTH_Z);
const sdBelow = ({ earliestS, likelyS }: Spread): number => sdOf(earliestS, likelyS);
const sdAbove = ({ likelyS, latestS }: Spread): number => sdOf(likelyS, latestS);

/** Probability of a time after `s`, above 0. */
export function tailBeyond(spread: Spread, s: number): number {
  const ln = Math.log(s / spread.likelyS);
  return normalTail(ln / (ln < 0 ? sdBelow(spread) : sdAbove(spread)));
}

/** The time that is passed with this probability (above 0). */
function timeAtTail(spread: Spread, tail: number): number {
  let low = -10;
  let high = 37;
  while (high - low > 1e-9) {
    const z = (low + high) / 2;
    if (normalTail(z) > tail) low = z;
    else high = z;
  }
  return spread.likelyS * Math.exp(high * (high < 0 ? sdBelow(spread) : sdAbove(spread)));
}
