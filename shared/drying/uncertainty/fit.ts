import { type JointNormal, jointNormal, type Moments, sumOf } from "./joint-normal.ts";
import { type Truncated, truncatedNormal } from "./normal.ts";

/** Standard deviations of ln(factor) by where the difference comes from, and how far observations are trusted. */
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
  /** Share of acts that follow a look nobody recorded, and how long before the act that was, in ln. */
  lookShare: number;
  lookLn: number;
  /** How far this kitchen's habit of acting soon or late may be from that. */
  habitSd: number;
}

/** ln(factor) of one film, somewhere between two bounds; ±Infinity where open. */
export interface Observed {
  icing: string;
  place: string;
  lnLow: number;
  lnHigh: number;
  /** The upper bound is an act that waits for the film, not a test at any odd time. */
  byAct?: boolean;
}

/** An icing or a place, and how many observations are of it. */
export interface Group {
  name: string;
  tests: number;
}

/** What is known of the kitchen's mean and each offset: a joint normal over [kitchen, ...icings, ...places]. */
export interface FactorPosterior extends JointNormal {
  icings: Group[];
  places: Group[];
}

/** A Gaussian factor in natural parameters: precision, and precision times mean. */
interface Message {
  precision: number;
  shift: number;
}

interface Site extends Message {
  observed: Observed;
  freakMass: number;
}

/** Observations of one icing in one place: they tell of the same sum of the state's rows. */
interface Cell {
  /** Kitchen, icing, place, and for acts the habit. */
  rows: readonly number[];
  sites: Site[];
}

const SWEEPS_MAX = 80;
/** Largest move of a message when the sweeps stop: roughly, and for good. A film's own precision is about 26. */
const ROUGHLY = 0.01;
const SETTLED = 1e-6;
/** Part of the way each message moves in a sweep; all move at once, so that their order does not matter. */
const STEP = 0.9;

/**
 * Posterior of the factor's parts by expectation propagation (Minka 2001): each observation is stood in for by a normal
 * message with the moments of its truncated, possibly freak, normal. For exact values without freaks it is the conjugate
 * normal update. It starts from the fit without freaks, so that agreeing observations far off the book are believed.
 * Yields after each sweep: one costs up to a millisecond.
 */
export function* factorFitSteps(
  observations: readonly Observed[],
  prior: FactorPrior,
): Generator<void, FactorPosterior> {
  const icings = groupsOf(observations.map((item) => item.icing));
  const places = groupsOf(observations.map((item) => item.place));
  const firstPlace = 1 + icings.length;
  const habit = firstPlace + places.length;
  const priorVariances = [
    prior.kitchenSd ** 2,
    ...icings.map(() => prior.icingSd ** 2),
    ...places.map(() => prior.placeSd ** 2),
    prior.habitSd ** 2,
  ];
  const cells = new Map<string, Cell>();
  for (const observed of observations.toSorted(byContent)) {
    const rows = [0, 1 + indexOf(icings, observed.icing), firstPlace + indexOf(places, observed.place)];
    if (observed.byAct === true) rows.push(habit);
    const { mass } = truncatedNormal(0, prior.freakSd, observed.lnLow, observed.lnHigh);
    const cell = cells.get(rows.join()) ?? { rows, sites: [] };
    cell.sites.push({ observed, freakMass: prior.freakShare * mass, precision: 0, shift: 0 });
    cells.set(rows.join(), cell);
  }
  const told = [...cells.values()];
  yield* settle(told, priorVariances, { ...prior, freakShare: 0 }, ROUGHLY);
  const { mean, covariance } = yield* settle(told, priorVariances, prior, SETTLED);
  return {
    icings,
    places,
    mean: mean.slice(0, habit),
    covariance: covariance.slice(0, habit).map((row) => row.slice(0, habit)),
  };
}

/** The group of this name; −1 when nothing is known of it. */
export const indexOf = (groups: readonly Group[], name: string): number =>
  groups.findIndex((group) => group.name === name);

function groupsOf(names: readonly string[]): Group[] {
  const tests = new Map<string, number>();
  for (const name of names) tests.set(name, (tests.get(name) ?? 0) + 1);
  return [...tests].map(([name, tests]) => ({ name, tests })).toSorted((a, b) => byCode(a.name, b.name));
}

const byCode = (a: string, b: string): number => (a < b ? -1 : Number(a > b));

/** A fixed order, so that sums round alike whatever order the evidence came in. */
function byContent(a: Observed, b: Observed): number {
  return (
    Number(a.byAct === true) - Number(b.byAct === true) ||
    byCode(a.icing, b.icing) ||
    byCode(a.place, b.place) ||
    bySize(a.lnLow, b.lnLow) ||
    bySize(a.lnHigh, b.lnHigh)
  );
}

const bySize = (a: number, b: number): number => (a < b ? -1 : Number(a > b));

/** Sweeps until no message moves; changes the sites. */
function* settle(
  cells: readonly Cell[],
  priorVariances: readonly number[],
  prior: FactorPrior,
  settled: number,
): Generator<void, JointNormal> {
  let state = combine(cells, priorVariances);
  for (let sweep = 0; sweep < SWEEPS_MAX; sweep += 1) {
    let moved = 0;
    for (const { rows, sites } of cells) {
      const now = sumOf(state, rows);
      for (const site of sites) moved = Math.max(moved, move(site, project(site, now, prior)));
    }
    state = combine(cells, priorVariances);
    yield;
    if (moved < settled) break;
  }
  return state;
}

/** Takes a message most of the way to the next; returns how far it went. */
function move(site: Site, next: Message): number {
  const step = site.precision === 0 ? 1 : STEP;
  const precisionBy = step * (next.precision - site.precision);
  const shiftBy = step * (next.shift - site.shift);
  site.precision += precisionBy;
  site.shift += shiftBy;
  return Math.max(Math.abs(precisionBy), Math.abs(shiftBy));
}

/** The message that gives the marginal the moments it has with the true likelihood in the message's stead. */
function project(site: Site, now: Moments, prior: FactorPrior): Message {
  const precision = 1 / now.variance - site.precision;
  const shift = now.mean / now.variance - site.shift;
  const variance = 1 / precision;
  const mean = shift * variance;

  const filmVariance = variance + prior.filmSd ** 2;
  const film = filmGiven(site.observed, mean, Math.sqrt(filmVariance), prior);
  const freakMass = prior.freakShare === 0 ? 0 : site.freakMass;
  const filmMass = (1 - prior.freakShare) * film.mass;
  const trust = freakMass + filmMass > 0 ? filmMass / (freakMass + filmMass) : 1;

  const pull = variance / filmVariance;
  const trusted = {
    mean: mean + pull * (film.mean - mean),
    variance: variance - pull * (variance - pull * film.variance),
  };
  const tilted = mixture(trust, trusted, { mean, variance });

  // A doubtful observation can leave the factor less certain; a message of negative precision would not be a normal.
  const sitePrecision = Math.max(0, 1 / tilted.variance - precision);
  return { precision: sitePrecision, shift: tilted.mean * (precision + sitePrecision) - shift };
}

/**
 * A film's ln(factor) given what was seen of it. People act on a film that has set: those it kept waiting are seen late
 * and the looks before are not recorded, so that "by now" alone would make every kitchen look fast. An act therefore
 * counts as likely soon after the film set: weight 1 − s + s·exp(−(time waited) / lookLn).
 */
function filmGiven(seen: Observed, mean: number, sd: number, prior: FactorPrior): Truncated {
  const any = truncatedNormal(mean, sd, seen.lnLow, seen.lnHigh);
  if (seen.byAct !== true || prior.lookShare === 0) return any;
  const tilt = (sd * sd) / prior.lookLn;
  const soon = truncatedNormal(mean + tilt, sd, seen.lnLow, seen.lnHigh);
  const soonMass = prior.lookShare * soon.mass * Math.exp((mean + tilt / 2 - seen.lnHigh) / prior.lookLn);
  const mass = (1 - prior.lookShare) * any.mass + soonMass;
  return { mass, ...mixture(mass > 0 ? soonMass / mass : 0, soon, any) };
}

/** Moments of a mixture: `share` of one, the rest of the other. */
function mixture(share: number, one: Moments, other: Moments): Moments {
  return {
    mean: other.mean + share * (one.mean - other.mean),
    variance:
      share * one.variance +
      (1 - share) * other.variance +
      share * (1 - share) * (one.mean - other.mean) ** 2,
  };
}

/** Prior times all messages. */
function combine(cells: readonly Cell[], priorVariances: readonly number[]): JointNormal {
  const precision = priorVariances.map((variance, row) =>
    priorVariances.map((_, column) => (row === column ? 1 / variance : 0)),
  );
  const shift = priorVariances.map(() => 0);
  for (const { rows, sites } of cells) {
    let cellPrecision = 0;
    let cellShift = 0;
    for (const site of sites) {
      cellPrecision += site.precision;
      cellShift += site.shift;
    }
    for (const row of rows) {
      shift[row]! += cellShift;
      for (const column of rows) precision[row]![column]! += cellPrecision;
    }
  }
  return jointNormal(precision, shift);
}
