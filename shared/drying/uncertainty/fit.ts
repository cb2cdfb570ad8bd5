import { type JointNormal, jointNormal, type Moments } from "./joint-normal.ts";
import {
  between,
  type Message,
  messageOf,
  mixture,
  move,
  normalTimes,
  project,
  type Site,
} from "./messages.ts";
import { truncatedNormal } from "./normal.ts";
import {
  type BowlPosterior,
  FIRST_ICING_ROW,
  type FactorPosterior,
  type FilmMessage,
  type Group,
  type Observed,
  type Parts,
  partsOf,
} from "./parts.ts";
import { type FactorPrior, heatVariance, newIcing, newIcingVariance } from "./prior.ts";

/** Observations of which the same is expected: they tell of the same sum of parts. */
interface Cell {
  parts: Parts;
  bowl: number;
  sites: Site[];
}

const SWEEPS_MAX = 80;
/** Largest move of a message when the sweeps stop: roughly, and for good. A film's own precision is about 16. */
const ROUGHLY = 0.01;
const SETTLED = 1e-5;
/** No scatter is taken to be larger. */
const MOST_SD = 0.6;
/** Less is rounding. */
const LEAST_PRECISION = 1e-3;

/**
 * Posterior of the factor's parts by expectation propagation (Minka 2001): each observation is stood in for by a normal
 * message with the moments of its truncated, possibly freak, normal; an icing's two-sided prior by another. For exact values
 * without freaks, odd icings or a scatter to learn it is the conjugate normal update. It starts from the fit without freaks, so
 * that agreeing observations far off the book are believed. The scatter from film to film is learned with it, as its expected
 * square given all (expectation–maximisation). Bowls are eliminated one by one, so that many of them cost little.
 * Yields after each sweep: one costs up to a millisecond.
 */
export function* factorFitSteps(
  observations: readonly Observed[],
  prior: FactorPrior,
): Generator<void, FactorPosterior> {
  const fit = new Fit(observations, prior);
  yield* fit.settle({ ...prior, freakShare: 0, filmSdFilms: Infinity, bowlSdBowls: Infinity }, ROUGHLY);
  yield* fit.settle(prior, SETTLED);
  return fit.posterior();
}

class Fit {
  readonly #icings: Group[];
  readonly #places: Group[];
  readonly #heats: Group[];
  readonly #bowls: string[];
  readonly #prior: FactorPrior;
  readonly #cells: readonly Cell[];
  readonly #slow: readonly boolean[];
  /** An icing's prior as a message. */
  readonly #icingSites: Message[];
  readonly #habitRow: number;
  #state: JointNormal;
  /** Of each bowl: its precision, its shift, and how it couples to the rows. */
  #bowlPrecision: Float64Array;
  #bowlShift: Float64Array;
  #coupling: Float64Array[];
  #filmSd: number;
  #bowlSd: number;

  constructor(observations: readonly Observed[], prior: FactorPrior) {
    this.#prior = prior;
    this.#icings = groupsOf(observations.map(({ icing }) => icing));
    this.#places = groupsOf(observations.flatMap(({ place, heat }) => (heat === undefined ? place : [])));
    this.#heats = groupsOf(observations.flatMap(({ heat }) => heat ?? []));
    this.#bowls = groupsOf(observations.flatMap(({ bowl }) => bowl ?? [])).map(({ name }) => name);
    this.#habitRow = FIRST_ICING_ROW + this.#icings.length + this.#places.length + this.#heats.length;
    this.#filmSd = prior.filmSd;
    this.#bowlSd = prior.bowlSd;
    const slow = new Set(observations.flatMap(({ icing, isSlow }) => (isSlow === true ? icing : [])));
    this.#slow = this.#icings.map(({ name }) => slow.has(name));
    this.#icingSites = this.#slow.map((isSlow) => messageOf(newIcing(prior, isSlow)));
    this.#cells = this.#cellsOf(observations);
    const bowls = this.#bowls.length;
    [this.#bowlPrecision, this.#bowlShift] = [new Float64Array(bowls), new Float64Array(bowls)];
    this.#coupling = Array.from({ length: bowls }, () => new Float64Array(this.#habitRow + 1));
    this.#state = this.#combine();
  }

  #cellsOf(observations: readonly Observed[]): Cell[] {
    const prior = this.#prior;
    const groups = { icings: this.#icings, places: this.#places, heats: this.#heats };
    const cells = new Map<string, Cell>();
    for (const observed of observations.toSorted(byContent)) {
      const { bowl, byAct, lnLow, lnHigh, weight = 1 } = observed;
      const parts = [...partsOf(groups, observed)];
      if (byAct === true) parts.push([this.#habitRow, 1]);
      const at = bowl === undefined ? -1 : this.#bowls.indexOf(bowl);
      const key = `${parts.join()} ${at}`;
      const cell = cells.get(key) ?? { parts, bowl: at, sites: [] };
      const { mass } = truncatedNormal(0, prior.freakSd, lnLow, lnHigh);
      cell.sites.push({ observed, weight, freakMass: prior.freakShare * mass, precision: 0, shift: 0 });
      cells.set(key, cell);
    }
    return [...cells.values()];
  }

  /** Sweeps until no message moves. */
  *settle(prior: FactorPrior, settled: number): Generator<void, void> {
    for (let sweep = 0; sweep < SWEEPS_MAX; sweep += 1) {
      let moved = 0;
      const films = { squares: prior.filmSdFilms * prior.filmSd ** 2, count: prior.filmSdFilms };
      const bowls = { squares: prior.bowlSdBowls * prior.bowlSd ** 2, count: prior.bowlSdBowls };
      const ofBowls = this.#bowls.map((_, bowl) => this.#bowl(bowl));
      for (const cell of this.#cells) {
        const now = this.#expected(cell, ofBowls[cell.bowl]);
        for (const site of cell.sites) {
          const { message, square, bowlSquare, trust } = project(site, now, prior, this.#scatterOf(cell));
          moved = Math.max(moved, move(site, message));
          // An act's weight hangs on the habit of acting: it tells nothing of how films scatter.
          if (site.observed.byAct === true) continue;
          films.squares += trust * square;
          films.count += trust;
          if (cell.bowl >= 0) continue;
          bowls.squares += trust * bowlSquare;
          bowls.count += trust;
        }
      }
      for (const [icing, site] of this.#icingSites.entries())
        moved = Math.max(moved, move(site, this.#icingMessage(icing, site)));
      for (const { mean, variance } of ofBowls) {
        bowls.squares += mean ** 2 + variance;
        bowls.count += 1;
      }
      const [filmSd, bowlSd] = [films, bowls].map(({ squares, count }) =>
        Math.min(MOST_SD, Math.sqrt(squares / count)),
      );
      if (Number.isFinite(prior.filmSdFilms)) {
        moved = Math.max(moved, Math.abs(filmSd! - this.#filmSd));
        this.#filmSd = filmSd!;
      }
      if (Number.isFinite(prior.bowlSdBowls)) {
        moved = Math.max(moved, Math.abs(bowlSd! - this.#bowlSd));
        this.#bowlSd = bowlSd!;
      }
      this.#state = this.#combine();
      yield;
      if (moved < settled) break;
    }
  }

  /** A film whose bowl nobody named differs by that bowl as well. */
  #scatterOf({ bowl }: Cell): { filmSd: number; bowlVariance: number } {
    return { filmSd: this.#filmSd, bowlVariance: bowl < 0 ? this.#bowlSd ** 2 : 0 };
  }

  /** The message that gives an icing the moments it has under the two-sided prior. */
  #icingMessage(icing: number, site: Message): Message {
    const { icingSd, oddShare, oddSd } = this.#prior;
    if (this.#slow[icing] === true) return site;
    if (oddShare === 0) return { precision: 1 / icingSd ** 2, shift: 0 };
    const row = FIRST_ICING_ROW + icing;
    const precision = 1 / this.#state.covariance[row]![row]! - site.precision;
    const shift = this.#state.mean[row]! / this.#state.covariance[row]![row]! - site.shift;
    // Nothing else is known of it.
    if (!(precision > LEAST_PRECISION)) return { precision: 1 / newIcingVariance(this.#prior), shift: 0 };
    const [mean, variance] = [shift / precision, 1 / precision];
    const usual = normalTimes(mean, variance, icingSd ** 2);
    const odd = normalTimes(mean, variance, oddSd ** 2);
    const usualMass = (1 - oddShare) * usual.mass;
    const share = usualMass / (usualMass + oddShare * odd.mass);
    const tilted = mixture(share, usual, odd);
    const own = between(tilted, { precision, shift });
    // Where it wavers between usual and odd it may seem to know less than that it is odd.
    return own.precision > 1 / oddSd ** 2 ? own : { precision: 1 / oddSd ** 2, shift: 0 };
  }

  /** What is expected of a cell's films. */
  #expected({ parts }: Cell, bowl: Omit<BowlPosterior, "name"> | undefined): Moments {
    const sum = { mean: 0, variance: 0 };
    for (const [row, by] of parts) {
      sum.mean += by * this.#state.mean[row]!;
      for (const [column, other] of parts) sum.variance += by * other * this.#state.covariance[row]![column]!;
    }
    if (bowl === undefined) return sum;
    sum.mean += bowl.mean;
    sum.variance += bowl.variance;
    for (const [row, by] of parts) sum.variance += 2 * by * bowl.covariance[row]!;
    return sum;
  }

  #bowl(bowl: number): Omit<BowlPosterior, "name"> {
    const coupling = this.#coupling[bowl]!;
    const precision = this.#bowlPrecision[bowl]!;
    const covariance = this.#state.covariance.map((line) => {
      let sum = 0;
      for (let column = 0; column < line.length; column += 1) sum += line[column]! * coupling[column]!;
      return 0 - sum / precision;
    });
    let mean = this.#bowlShift[bowl]! / precision;
    let variance = 1 / precision;
    for (let row = 0; row < covariance.length; row += 1) {
      mean -= (coupling[row]! * this.#state.mean[row]!) / precision;
      variance -= (coupling[row]! * covariance[row]!) / precision;
    }
    return { mean, variance, covariance };
  }

  /** Prior times all messages, every bowl eliminated. */
  #combine(): JointNormal {
    const prior = this.#prior;
    const own = [
      { precision: 1 / prior.kitchenSd ** 2, shift: 0 },
      { precision: 1 / prior.secondsSd ** 2, shift: prior.secondsLn / prior.secondsSd ** 2 },
      ...this.#icingSites,
      ...this.#places.map(() => ({ precision: 1 / prior.placeSd ** 2, shift: 0 })),
      ...this.#heats.map(() => ({ precision: 1 / heatVariance(prior), shift: 0 })),
      { precision: 1 / prior.habitSd ** 2, shift: 0 },
    ];
    const precision = own.map((one, row) => own.map((_, column) => (row === column ? one.precision : 0)));
    const shift = own.map((one) => one.shift);
    this.#bowlPrecision.fill(1 / this.#bowlSd ** 2);
    this.#bowlShift.fill(0);
    for (const coupling of this.#coupling) coupling.fill(0);
    for (const { parts, bowl, sites } of this.#cells) {
      let cellPrecision = 0;
      let cellShift = 0;
      for (const site of sites) {
        cellPrecision += site.weight * site.precision;
        cellShift += site.weight * site.shift;
      }
      for (const [row, by] of parts) {
        shift[row]! += by * cellShift;
        for (const [column, other] of parts) precision[row]![column]! += by * other * cellPrecision;
        if (bowl >= 0) this.#coupling[bowl]![row]! += by * cellPrecision;
      }
      if (bowl < 0) continue;
      this.#bowlPrecision[bowl]! += cellPrecision;
      this.#bowlShift[bowl]! += cellShift;
    }
    for (const [bowl, coupling] of this.#coupling.entries()) {
      const part = 1 / this.#bowlPrecision[bowl]!;
      for (let row = 0; row < coupling.length; row += 1) {
        const by = coupling[row]! * part;
        if (by === 0) continue;
        shift[row]! -= by * this.#bowlShift[bowl]!;
        for (let column = 0; column < coupling.length; column += 1)
          precision[row]![column]! -= by * coupling[column]!;
      }
    }
    return jointNormal(precision, shift);
  }

  posterior(): FactorPosterior {
    const { mean, covariance } = this.#state;
    const habit = this.#habitRow;
    return {
      icings: this.#icings,
      places: this.#places,
      heats: this.#heats,
      films: this.#filmMessages(),
      mean: mean.slice(0, habit).map(noMinus),
      covariance: covariance.slice(0, habit).map((row) => row.slice(0, habit).map(noMinus)),
      bowls: this.#bowls.map((name, bowl) => {
        const { mean, variance, covariance } = this.#bowl(bowl);
        return { name, mean: noMinus(mean), variance, covariance: covariance.slice(0, habit).map(noMinus) };
      }),
      filmSd: this.#filmSd,
      bowlSd: this.#bowlSd,
    };
  }

  #filmMessages(): FilmMessage[] {
    return this.#cells
      .flatMap(({ parts, sites }) =>
        sites.flatMap(({ observed, weight, precision, shift }) =>
          observed.film === undefined || observed.byAct === true
            ? []
            : [{ name: observed.film, parts, precision: weight * precision, shift: noMinus(weight * shift) }],
        ),
      )
      .toSorted((a, b) => byCode(a.name, b.name));
  }
}

/** JSON knows no −0. */
const noMinus = (value: number): number => value + 0;

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
    Number(a.isSlow === true) - Number(b.isSlow === true) ||
    byCode(a.bowl ?? "", b.bowl ?? "") ||
    byCode(a.heat ?? "", b.heat ?? "") ||
    bySize(a.secondsLn ?? 0, b.secondsLn ?? 0) ||
    bySize(a.weight ?? 1, b.weight ?? 1) ||
    bySize(a.lnLow, b.lnLow) ||
    bySize(a.lnHigh, b.lnHigh) ||
    byCode(a.film ?? "", b.film ?? "")
  );
}

const bySize = (a: number, b: number): number => (a < b ? -1 : Number(a > b));
