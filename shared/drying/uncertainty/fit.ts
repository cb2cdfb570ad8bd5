import { Average } from "./average.ts";
import { Bowl } from "./bowls.ts";
import { Cell } from "./cells.ts";
import { Joint, type Message } from "./joint-normal.ts";
import { icingMessage, messageOf, move, project, stepOf } from "./messages.ts";
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
  partsOf,
} from "./parts.ts";
import { type FactorPrior, heatVariance, newIcing } from "./prior.ts";

const SWEEPS_MAX = 80;
/** Largest move of a message when the sweeps stop: roughly, and for good. A film's own precision is about 16. */
const ROUGHLY = 0.01;
const SETTLED = 1e-4;
/** No scatter is taken to be larger, and no kitchen's findings to be wrong more often. */
const MOST_VARIANCE = 0.6 ** 2;
const MOST_FREAKS = 0.3;

/**
 * Posterior of the factor's parts by expectation propagation (Minka 2001): each observation is stood in for by a normal
 * message with the moments of its truncated, possibly freak, normal; an icing's two-sided prior by another. For exact values
 * without freaks, odd icings or a scatter to learn it is the conjugate normal update. It starts from the fit without freaks, so
 * that agreeing observations far off the book are believed. Learned with it are the scatter from film to film and from bowl to
 * bowl, and how often a finding is a freak. Yields after each sweep: one costs well under a millisecond.
 */
export function* factorFitSteps(
  observations: readonly Observed[],
  prior: FactorPrior,
): Generator<void, FactorPosterior> {
  const fit = new Fit(observations, prior);
  yield* fit.settle({ isFirst: true });
  yield* fit.settle({ isFirst: false });
  return fit.posterior();
}

class Fit {
  readonly #icings: Group[];
  readonly #places: Group[];
  readonly #heats: Group[];
  readonly #bowls: readonly Bowl[];
  readonly #prior: FactorPrior;
  readonly #cells: readonly Cell[];
  readonly #slow: readonly boolean[];
  /** An icing's prior as a message. */
  readonly #icingSites: Message[];
  readonly #habitRow: number;
  /** Of all parts: what the priors say by themselves, and with every message. */
  readonly #priors: readonly Message[];
  readonly #precision: Float64Array;
  readonly #shift: Float64Array;
  readonly #state: Joint;
  /** How far one film, and one bowl, lies from the next, squared; and the share of findings that say nothing of their film. */
  readonly #filmVariance: Average;
  readonly #bowlVariance: Average;
  readonly #freakShare: Average;

  constructor(observations: readonly Observed[], prior: FactorPrior) {
    this.#prior = prior;
    this.#icings = groupsOf(observations.map(({ icing }) => icing));
    this.#places = groupsOf(observations.flatMap(({ place, heat }) => (heat === undefined ? place : [])));
    this.#heats = groupsOf(observations.flatMap(({ heat }) => heat ?? []));
    this.#habitRow = FIRST_ICING_ROW + this.#icings.length + this.#places.length + this.#heats.length;
    this.#filmVariance = new Average(prior.filmSd ** 2, MOST_VARIANCE);
    this.#bowlVariance = new Average(prior.bowlSd ** 2, MOST_VARIANCE);
    this.#freakShare = new Average(prior.freakShare, MOST_FREAKS);
    const slow = new Set(observations.flatMap(({ icing, isSlow }) => (isSlow === true ? icing : [])));
    this.#slow = this.#icings.map(({ name }) => slow.has(name));
    this.#icingSites = this.#slow.map((isSlow) => messageOf(newIcing(prior, isSlow)));
    this.#priors = [
      { precision: 1 / prior.kitchenSd ** 2, shift: 0 },
      { precision: 1 / prior.secondsSd ** 2, shift: prior.secondsLn / prior.secondsSd ** 2 },
      ...this.#icingSites,
      ...this.#places.map(() => ({ precision: 1 / prior.placeSd ** 2, shift: 0 })),
      ...this.#heats.map(() => ({ precision: 1 / heatVariance(prior), shift: 0 })),
      { precision: 1 / prior.habitSd ** 2, shift: 0 },
    ];
    const bowls = new Map(
      groupsOf(observations.flatMap(({ bowl }) => bowl ?? [])).map(({ name }) => [name, new Bowl(name)]),
    );
    this.#bowls = [...bowls.values()];
    this.#cells = this.#cellsOf(observations, bowls);
    const size = this.#priors.length;
    this.#precision = new Float64Array(size * size);
    this.#shift = new Float64Array(size);
    this.#state = new Joint(size);
    this.#combine();
  }

  #cellsOf(observations: readonly Observed[], bowls: ReadonlyMap<string, Bowl>): Cell[] {
    const groups = { icings: this.#icings, places: this.#places, heats: this.#heats };
    const cells = new Map<string, Cell>();
    for (const observed of observations.toSorted(byContent)) {
      const { bowl, byAct, lnLow, lnHigh, weight = 1 } = observed;
      const parts = [...partsOf(groups, observed)];
      if (byAct === true) parts.push([this.#habitRow, 1]);
      const key = `${parts.join()} ${bowl === undefined ? "" : `of ${bowl}`}`;
      const cell = cells.get(key) ?? new Cell(parts, bowl === undefined ? undefined : bowls.get(bowl));
      const { mass } = truncatedNormal(0, this.#prior.freakSd, lnLow, lnHigh);
      cell.sites.push({ observed, weight, freakMass: mass, precision: 0, shift: 0 });
      cells.set(key, cell);
    }
    return [...cells.values()];
  }

  /** Sweeps until no message moves; at first roughly, every finding taken at its word and no average learned. */
  *settle({ isFirst }: { isFirst: boolean }): Generator<void, void> {
    for (let sweep = 0; sweep < SWEEPS_MAX; sweep += 1) {
      const step = stepOf(sweep);
      const messages = Math.max(this.#moveFilms(isFirst, step), this.#moveIcings(step));
      const moved = isFirst ? messages : Math.max(messages, this.#learnAverages());
      this.#combine();
      yield;
      if (moved < (isFirst ? ROUGHLY : SETTLED)) break;
    }
  }

  #moveFilms(isFirst: boolean, step: number): number {
    const freakShare = isFirst ? 0 : this.#freakShare.value;
    const filmVariance = this.#filmVariance.value;
    let moved = 0;
    for (const cell of this.#cells) {
      const now = cell.expected(this.#state);
      // A film whose bowl nobody named differs by that bowl as well.
      const bowlVariance = cell.bowl === undefined ? this.#bowlVariance.value : 0;
      for (const site of cell.sites) {
        const told = project(site, now, this.#prior, { freakShare, filmVariance, bowlVariance });
        if (told === undefined) continue;
        moved = Math.max(moved, move(site, told.message, step));
        // An act's weight hangs on the habit of acting: it tells nothing of how films scatter, or of wrong taps.
        if (isFirst || site.observed.byAct === true) continue;
        this.#freakShare.add(1 - told.trust, 1);
        this.#filmVariance.add(told.square, told.trust);
        if (cell.bowl === undefined) this.#bowlVariance.add(told.bowlSquare, told.trust);
      }
    }
    return moved;
  }

  #moveIcings(step: number): number {
    let moved = 0;
    for (const [icing, site] of this.#icingSites.entries()) {
      if (this.#slow[icing] === true) continue;
      const now = this.#state.momentsOf(FIRST_ICING_ROW + icing);
      moved = Math.max(moved, move(site, icingMessage(site, now, this.#prior), step));
    }
    return moved;
  }

  #learnAverages(): number {
    const { filmSdFilms, bowlSdBowls, freakShareFindings } = this.#prior;
    for (const { mean, variance } of this.#bowls) this.#bowlVariance.add(mean ** 2 + variance, 1);
    return Math.max(
      this.#filmVariance.learn(filmSdFilms),
      this.#bowlVariance.learn(bowlSdBowls),
      this.#freakShare.learn(freakShareFindings),
    );
  }

  /** Prior times all messages, every bowl eliminated. */
  #combine(): void {
    const precision = this.#precision.fill(0);
    const shift = this.#shift;
    for (const [row, own] of this.#priors.entries()) {
      precision[row * shift.length + row] = own.precision;
      shift[row] = own.shift;
    }
    for (const bowl of this.#bowls) bowl.reset(this.#bowlVariance.value);
    for (const cell of this.#cells) cell.tell(precision, shift);
    for (const bowl of this.#bowls) bowl.eliminate(precision, shift);
    this.#state.solve(precision, shift);
    for (const bowl of this.#bowls) bowl.update(this.#state);
  }

  posterior(): FactorPosterior {
    const told = Array.from({ length: this.#habitRow }, (_, row) => row);
    const state = this.#state;
    return {
      icings: this.#icings,
      places: this.#places,
      heats: this.#heats,
      films: this.#filmMessages(),
      mean: told.map((row) => noMinus(state.mean[row]!)),
      covariance: told.map((row) => told.map((column) => noMinus(state.covarianceOf(row, column)))),
      bowls: this.#bowls.map((bowl) => ({
        name: bowl.name,
        mean: noMinus(bowl.mean),
        variance: bowl.variance,
        covariance: told.map((row) => noMinus(bowl.covarianceWith(row, state))),
      })),
      filmSd: Math.sqrt(this.#filmVariance.value),
      bowlSd: Math.sqrt(this.#bowlVariance.value),
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
