import { type BowlEffect, Bowls } from "./bowls.ts";
import { type JointNormal, jointNormal, type Moments } from "./joint-normal.ts";
import type { Message } from "./joint-normal.ts";
import { icingMessage, messageOf, move, project, type Site } from "./messages.ts";
import { truncatedNormal } from "./normal.ts";
import {
  byCode,
  byContent,
  FIRST_ICING_ROW,
  type FactorPosterior,
  type FilmMessage,
  type Group,
  groupsOf,
  type Observed,
  type Parts,
  partsOf,
} from "./parts.ts";
import { type FactorPrior, heatVariance, newIcing } from "./prior.ts";

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

/**
 * Posterior of the factor's parts by expectation propagation (Minka 2001): each observation is stood in for by a normal
 * message with the moments of its truncated, possibly freak, normal; an icing's two-sided prior by another. For exact values
 * without freaks, odd icings or a scatter to learn it is the conjugate normal update. It starts from the fit without freaks, so
 * that agreeing observations far off the book are believed. The scatter from film to film is learned with it, as its expected
 * square given all (expectation–maximisation). Yields after each sweep: one costs up to a millisecond.
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
  readonly #bowls: Bowls;
  readonly #prior: FactorPrior;
  readonly #cells: readonly Cell[];
  readonly #slow: readonly boolean[];
  /** An icing's prior as a message. */
  readonly #icingSites: Message[];
  readonly #habitRow: number;
  #state: JointNormal;
  #filmSd: number;
  #bowlSd: number;

  constructor(observations: readonly Observed[], prior: FactorPrior) {
    this.#prior = prior;
    this.#icings = groupsOf(observations.map(({ icing }) => icing));
    this.#places = groupsOf(observations.flatMap(({ place, heat }) => (heat === undefined ? place : [])));
    this.#heats = groupsOf(observations.flatMap(({ heat }) => heat ?? []));
    const bowls = groupsOf(observations.flatMap(({ bowl }) => bowl ?? [])).map(({ name }) => name);
    this.#habitRow = FIRST_ICING_ROW + this.#icings.length + this.#places.length + this.#heats.length;
    this.#filmSd = prior.filmSd;
    this.#bowlSd = prior.bowlSd;
    const slow = new Set(observations.flatMap(({ icing, isSlow }) => (isSlow === true ? icing : [])));
    this.#slow = this.#icings.map(({ name }) => slow.has(name));
    this.#icingSites = this.#slow.map((isSlow) => messageOf(newIcing(prior, isSlow)));
    this.#cells = this.#cellsOf(observations, bowls);
    const partsOfBowl = (bowl: number): Parts[] =>
      this.#cells.flatMap((cell) => (cell.bowl === bowl ? [cell.parts] : []));
    this.#bowls = new Bowls(bowls, partsOfBowl, this.#habitRow + 1);
    this.#state = this.#combine();
  }

  #cellsOf(observations: readonly Observed[], bowls: readonly string[]): Cell[] {
    const prior = this.#prior;
    const groups = { icings: this.#icings, places: this.#places, heats: this.#heats };
    const cells = new Map<string, Cell>();
    for (const observed of observations.toSorted(byContent)) {
      const { bowl, byAct, lnLow, lnHigh, weight = 1 } = observed;
      const parts = [...partsOf(groups, observed)];
      if (byAct === true) parts.push([this.#habitRow, 1]);
      const at = bowl === undefined ? -1 : bowls.indexOf(bowl);
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
      const ofBowls = this.#bowls.ownEffects(this.#state);
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
      for (const [icing, site] of this.#icingSites.entries()) {
        const row = FIRST_ICING_ROW + icing;
        const now = { mean: this.#state.mean[row]!, variance: this.#state.covariance[row]![row]! };
        if (this.#slow[icing] === false)
          moved = Math.max(moved, move(site, icingMessage(site, now, this.#prior)));
      }
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

  /** What is expected of a cell's films. */
  #expected({ parts }: Cell, bowl: BowlEffect | undefined): Moments {
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
    this.#bowls.reset(this.#bowlSd);
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
      }
      if (bowl >= 0) this.#bowls.add(bowl, parts, cellPrecision, cellShift);
    }
    this.#bowls.eliminate(precision, shift);
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
      bowls: this.#bowls.effects(this.#state).map(({ mean, variance, covariance }, bowl) => ({
        name: this.#bowls.names[bowl]!,
        mean: noMinus(mean),
        variance,
        covariance: covariance.slice(0, habit).map(noMinus),
      })),
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
