import { type Truncated, truncatedNormal } from "./normal.ts";

/** Standard deviations of ln(factor) by where the difference comes from, and how far odd observations are trusted. */
export interface FactorPrior {
  kitchenSd: number;
  icingSd: number;
  placeSd: number;
  /** From one film to the next of the same icing in the same place. */
  filmSd: number;
  /** Share of observations that say nothing of the film (wrong tray, late tap); 0 switches robustness off. */
  freakShare: number;
  /** Where those fall, about ln 1 = 0. */
  freakSd: number;
}

/** ln(factor) of one film, somewhere between two bounds; ±Infinity where open. */
export interface Observed {
  icing: string;
  place: string;
  lnLow: number;
  lnHigh: number;
}

/** What is known of the kitchen's mean and each offset: a joint normal over [kitchen, ...icings, ...places]. */
export interface FactorPosterior {
  icings: string[];
  places: string[];
  mean: number[];
  covariance: number[][];
}

/** A Gaussian factor in natural parameters: precision, and precision times mean. */
interface Message {
  precision: number;
  shift: number;
}

interface Site extends Message {
  observed: Observed;
  /** Rows of the state this observation sums: kitchen, icing, place. */
  rows: readonly [number, number, number];
}

const SWEEPS_MAX = 80;
const SETTLED = 1e-8;
/** Part of the way each message moves in a sweep; all move at once, so that their order does not matter. */
const STEP = 0.7;

/**
 * Posterior of the factor's parts by expectation propagation (Minka 2001): each observation is stood in for by a normal
 * message with the moments of its truncated, possibly freak, normal. For exact values without freaks it is the conjugate
 * normal update. It starts from the fit without freaks, so that agreeing observations far off the book are believed.
 */
export function fitFactor(observations: readonly Observed[], prior: FactorPrior): FactorPosterior {
  const icings = distinct(observations.map((item) => item.icing));
  const places = distinct(observations.map((item) => item.place));
  const priorVariances = [
    prior.kitchenSd ** 2,
    ...icings.map(() => prior.icingSd ** 2),
    ...places.map(() => prior.placeSd ** 2),
  ];
  const sites = observations.toSorted(byContent).map((observed): Site => {
    const rows = [
      0,
      1 + icings.indexOf(observed.icing),
      1 + icings.length + places.indexOf(observed.place),
    ] as const;
    return { observed, rows, precision: 0, shift: 0 };
  });
  const trusting = settle(sites, priorVariances, { ...prior, freakShare: 0 });
  const { mean, covariance } = prior.freakShare > 0 ? settle(sites, priorVariances, prior) : trusting;
  return { icings, places, mean, covariance };
}

const distinct = (names: readonly string[]): string[] => [...new Set(names)].toSorted(byCode);

const byCode = (a: string, b: string): number => (a < b ? -1 : Number(a > b));

/** A fixed order, so that sums round alike whatever order the evidence came in. */
function byContent(a: Observed, b: Observed): number {
  return (
    byCode(a.icing, b.icing) ||
    byCode(a.place, b.place) ||
    bySize(a.lnLow, b.lnLow) ||
    bySize(a.lnHigh, b.lnHigh)
  );
}

const bySize = (a: number, b: number): number => (a < b ? -1 : Number(a > b));

interface State {
  mean: number[];
  covariance: number[][];
}

/** Sweeps until no message moves; changes the sites. */
function settle(sites: Site[], priorVariances: readonly number[], prior: FactorPrior): State {
  let state = combine(sites, priorVariances);
  for (let sweep = 0; sweep < SWEEPS_MAX; sweep += 1) {
    let moved = 0;
    for (const site of sites) {
      const next = project(site, marginal(state, site.rows), prior);
      const step = site.precision === 0 ? 1 : STEP;
      const precision = site.precision + step * (next.precision - site.precision);
      const shift = site.shift + step * (next.shift - site.shift);
      moved = Math.max(moved, Math.abs(precision - site.precision), Math.abs(shift - site.shift));
      site.precision = precision;
      site.shift = shift;
    }
    state = combine(sites, priorVariances);
    if (moved < SETTLED) break;
  }
  return state;
}

/** The message that gives the marginal the moments it has with the true likelihood in the message's stead. */
function project(site: Site, now: { mean: number; variance: number }, prior: FactorPrior): Message {
  const precision = 1 / now.variance - site.precision;
  const shift = now.mean / now.variance - site.shift;
  const variance = 1 / precision;
  const mean = shift * variance;
  const { lnLow, lnHigh } = site.observed;

  const filmVariance = variance + prior.filmSd ** 2;
  const film: Truncated = truncatedNormal(mean, Math.sqrt(filmVariance), lnLow, lnHigh);
  const freakMass =
    prior.freakShare > 0 ? prior.freakShare * truncatedNormal(0, prior.freakSd, lnLow, lnHigh).mass : 0;
  const filmMass = (1 - prior.freakShare) * film.mass;
  const trust = freakMass + filmMass > 0 ? filmMass / (freakMass + filmMass) : 1;

  const pull = variance / filmVariance;
  const filmMean = mean + pull * (film.mean - mean);
  const filmOwnVariance = variance - pull * (variance - pull * film.variance);
  const tiltedMean = mean + trust * (filmMean - mean);
  const tiltedVariance =
    trust * filmOwnVariance + (1 - trust) * variance + trust * (1 - trust) * (filmMean - mean) ** 2;

  // A doubtful observation can leave the factor less certain; a message of negative precision would not be a normal.
  const siteprecision = Math.max(0, 1 / tiltedVariance - precision);
  return { precision: siteprecision, shift: tiltedMean * (precision + siteprecision) - shift };
}

/** Mean and variance of a film's ln(factor) before its own scatter. */
function marginal(state: State, rows: readonly number[]): { mean: number; variance: number } {
  let mean = 0;
  let variance = 0;
  for (const row of rows) {
    mean += state.mean[row] ?? 0;
    for (const column of rows) variance += state.covariance[row]?.[column] ?? 0;
  }
  return { mean, variance };
}

/** Prior times all messages. */
function combine(sites: readonly Site[], priorVariances: readonly number[]): State {
  const size = priorVariances.length;
  const precision = priorVariances.map((variance, row) =>
    Array.from({ length: size }, (_, column) => (row === column ? 1 / variance : 0)),
  );
  const shift = Array.from({ length: size }, () => 0);
  for (const site of sites) {
    for (const row of site.rows) {
      shift[row] = (shift[row] ?? 0) + site.shift;
      const line = precision[row];
      if (line === undefined) continue;
      for (const column of site.rows) line[column] = (line[column] ?? 0) + site.precision;
    }
  }
  const covariance = inverse(precision);
  const mean = covariance.map((line) =>
    line.reduce((sum, value, column) => sum + value * (shift[column] ?? 0), 0),
  );
  return { mean, covariance };
}

/** Inverse of a symmetric positive definite matrix by Gauss–Jordan; its pivots need no exchange. */
function inverse(matrix: readonly (readonly number[])[]): number[][] {
  const size = matrix.length;
  const rows = matrix.map((line) => Float64Array.from(line));
  for (const [k, pivotRow] of rows.entries()) {
    const pivot = 1 / (pivotRow[k] ?? 1);
    pivotRow[k] = 1;
    for (let j = 0; j < size; j += 1) pivotRow[j] = (pivotRow[j] ?? 0) * pivot;
    for (const [i, row] of rows.entries()) {
      if (i === k) continue;
      const factor = row[k] ?? 0;
      if (factor === 0) continue;
      row[k] = 0;
      for (let j = 0; j < size; j += 1) row[j] = (row[j] ?? 0) - factor * (pivotRow[j] ?? 0);
    }
  }
  return rows.map((row) => Array.from(row));
}
