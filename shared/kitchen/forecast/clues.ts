import { normalTail, TENTH_Z } from "#shared/drying/uncertainty/normal.ts";
import type { Band, ReachedBand } from "#shared/drying/uncertainty/band.ts";
import { foundAt } from "#shared/kitchen/tray/route.ts";
import type { Film } from "#shared/kitchen/model/state.ts";

/** What hands know of one film's time, ms from its clock's start: reached at a moment, or not yet at one. */
export type Known = { reachedMs: number } | { notYetMs: number } | undefined;

/** Touch tests and later acts on this very film; the last word counts. */
export function knownOf(film: Film, quantity: "skin" | "dryThrough"): Known {
  const reachedMs = foundAt(film, quantity === "skin" ? "skin" : "dry through");
  const after = (atMs: number): number => Math.max(0, atMs - film.clockStartMs);
  if (reachedMs !== undefined) return { reachedMs: after(reachedMs) };
  const last = film.findings.findLast(({ finding }) => quantity === "dryThrough" || finding === "still wet");
  return last === undefined ? undefined : { notYetMs: after(last.atMs) };
}

/**
 * The percentiles once hands have touched the film: a found time is a fact; "not yet" cuts the distribution there, and
 * the percentiles are those of what is left of it. Between the given percentiles the distribution is taken as log-normal,
 * with a spread of its own below and above the median.
 */
export function given(band: Band, known: Known): Band {
  if (known === undefined) return band;
  if ("reachedMs" in known)
    return { earliestMs: known.reachedMs, likelyMs: known.reachedMs, latestMs: known.reachedMs };
  if ("never" in band || known.notYetMs <= 0) return band;
  const left = tailBeyond(band, known.notYetMs);
  const at = (share: number): number => Math.max(known.notYetMs, timeAtTail(band, share * left));
  return { earliestMs: at(0.9), likelyMs: at(0.5), latestMs: at(0.1) };
}

/** A spread never smaller than this, so that facts do not divide by nought. */
const LEAST_SD = 1e-4;

const sdOf = (nearer: number, farther: number): number =>
  Math.max(LEAST_SD, Math.log(farther / Math.max(nearer, 1e-3)) / TENTH_Z);
const sdBelow = ({ earliestMs, likelyMs }: ReachedBand): number => sdOf(earliestMs, likelyMs);
const sdAbove = ({ likelyMs, latestMs }: ReachedBand): number => sdOf(likelyMs, latestMs);

/** Probability of a time after `ms`, above 0. */
export function tailBeyond(band: ReachedBand, ms: number): number {
  const ln = Math.log(ms / band.likelyMs);
  return normalTail(ln / (ln < 0 ? sdBelow(band) : sdAbove(band)));
}

/** The time that is passed with this probability (above 0). */
function timeAtTail(band: ReachedBand, tail: number): number {
  let low = -10;
  let high = 37;
  while (high - low > 1e-9) {
    const z = (low + high) / 2;
    if (normalTail(z) > tail) low = z;
    else high = z;
  }
  return band.likelyMs * Math.exp(high * (high < 0 ? sdBelow(band) : sdAbove(band)));
}
