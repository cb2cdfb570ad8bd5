import { factorFitSteps } from "./fit.ts";
import { type FactorPosterior, indexOf, type Observed, type Parts, partsOf } from "./parts.ts";
import { type FactorPrior, heatVariance, newIcing } from "./prior.ts";
import type { Quantity } from "#shared/drying/film/film.ts";
import { atOnce } from "#shared/steps.ts";
import { type Belief, type FactorBelief, LEARNING_PRIOR } from "./belief.ts";
import type { Moments } from "./joint-normal.ts";
import { TENTH_Z } from "./normal.ts";

/**
 * What one film says of ln(its time / the model's time): between `lnLow` and `lnHigh`, open ends as ∓Infinity, both the
 * same for an exact time. One item for each film and quantity: its touch tests and acts taken together.
 */
export interface Evidence {
  quantity: Quantity;
  icing: string;
  place: string;
  /** Its icing is said to dry slowly. */
  isSlow?: boolean;
  /** The bowl it was flooded from: its films share an effect. */
  bowl?: string;
  /** ln of that bowl's seconds test over the usual. */
  secondsLn?: number;
  /** Found of a film that heat set, by the kind of heat: it teaches that, not the kitchen's air. */
  heat?: string;
  /** Names a film that is still forecast, so that its own finding does not count twice there. */
  film?: string;
  /** Days of work between it and the newest finding; nought when left out. */
  ageDays?: number;
  lnLow: number;
  lnHigh: number;
  /** `lnHigh` comes from an act that waits for the film (a neighbour laid, packing), not from a touch test. */
  byAct?: boolean;
}

/** What the kitchen has taught; plain data. */
export interface Learned {
  posterior: { skin: FactorPosterior; dryThrough: FactorPosterior };
  /** Films that said something. */
  tests: { skin: number; dryThrough: number };
}

/** A finding counts half as much after so many days of work: recipes, seasons and hands change. */
const HALF_LIFE_DAYS = 4;

/** What was learned, and from what. */
export interface Lessons {
  evidence: readonly Evidence[];
  learned: Learned;
}

/**
 * Learns both factors from evidence. The answer depends on the set of items alone, not on their order, so taking a test
 * back is learning again without it. `prior` changes what is believed to begin with; `freakShare` 0 takes every item at its word.
 * Throws RangeError for bounds that are not numbers or cross.
 */
export function learn(evidence: readonly Evidence[], prior: Partial<FactorPrior> = {}): Learned {
  return atOnce(learningSteps(evidence, undefined, prior));
}

/** As `learn`, a step of up to a millisecond at a time; a quantity of which `before` says the same is not learned again. */
export function* learningSteps(
  evidence: readonly Evidence[],
  before?: Lessons,
  changed: Partial<FactorPrior> = {},
): Generator<void, Learned> {
  const prior = { ...LEARNING_PRIOR, ...changed };
  for (const item of evidence) refuseCrossed(item);
  const skin = telling(evidence, "skin");
  const dryThrough = telling(evidence, "dryThrough");
  const fit = function* (quantity: Quantity, told: Observed[]): Generator<void, FactorPosterior> {
    const isKnown = before !== undefined && saySame(telling(before.evidence, quantity), told);
    return isKnown ? before.learned.posterior[quantity] : yield* factorFitSteps(told, prior);
  };
  return {
    posterior: { skin: yield* fit("skin", skin), dryThrough: yield* fit("dryThrough", dryThrough) },
    tests: { skin: skin.length, dryThrough: dryThrough.length },
  };
}

/** Whether the same was observed, item for item. */
const saySame = (some: readonly Observed[], others: readonly Observed[]): boolean =>
  some.length === others.length &&
  some.every((one, k) => {
    const other = others[k];
    return (
      one.icing === other?.icing &&
      one.place === other.place &&
      one.bowl === other.bowl &&
      one.isSlow === other.isSlow &&
      one.secondsLn === other.secondsLn &&
      one.heat === other.heat &&
      one.film === other.film &&
      one.weight === other.weight &&
      one.lnLow === other.lnLow &&
      one.lnHigh === other.lnHigh &&
      one.byAct === other.byAct
    );
  });

function refuseCrossed(item: Evidence): void {
  const isInterval = item.lnLow <= item.lnHigh && item.lnLow < Infinity && item.lnHigh > -Infinity;
  if (!isInterval) {
    throw new RangeError(
      `lnLow must be a number at or below lnHigh, got ${item.lnLow} and ${item.lnHigh} (${item.quantity}, ${item.icing})`,
    );
  }
}

/** Further off the book than a factor of a thousand is no further. */
const LN_MOST = Math.log(1000);
const tamed = (ln: number): number => (Number.isFinite(ln) ? Math.min(LN_MOST, Math.max(-LN_MOST, ln)) : ln);

function telling(evidence: readonly Evidence[], quantity: Quantity): Observed[] {
  return evidence
    .filter((item) => item.quantity === quantity && (item.lnLow > -Infinity || item.lnHigh < Infinity))
    .map(({ ageDays = 0, ...item }) => ({
      ...item,
      lnLow: tamed(item.lnLow),
      lnHigh: tamed(item.lnHigh),
      weight: 2 ** (-ageDays / HALF_LIFE_DAYS),
    }));
}

/** Which film is asked about: its icing, place, bowl and name, as far as they are known, and the heat that sets its skin. */
export interface FilmOf {
  icing: string;
  place: string;
  isSlow?: boolean | undefined;
  bowl?: string | undefined;
  secondsLn?: number | undefined;
  heat?: string | undefined;
  film?: string | undefined;
}

/** What to expect of a film: the factor, its offsets, its bowl, and film-to-film scatter. */
export function beliefFor(learned: Learned, film: FilmOf): Belief {
  return {
    skin: factorBelief(learned.posterior.skin, film),
    // Minutes of heat are little of what it takes to dry through.
    dryThrough: factorBelief(learned.posterior.dryThrough, { ...film, heat: undefined }),
  };
}

function factorBelief(posterior: FactorPosterior, film: FilmOf): FactorBelief {
  const { icing, place, heat, bowl = "", secondsLn = 0 } = film;
  const ofBowl = indexOf(posterior.bowls, bowl);
  const parts = partsOf(posterior, { icing, place, secondsLn, heat });
  const { mean, variance } = withoutOwn(posterior, parts, ofBowl, film.film);
  const ofIcing =
    indexOf(posterior.icings, icing) < 0 ? newIcing(LEARNING_PRIOR, film.isSlow === true) : NOTHING;
  const unknown =
    ofIcing.variance +
    (heat === undefined && indexOf(posterior.places, place) < 0 ? LEARNING_PRIOR.placeSd ** 2 : 0) +
    (heat !== undefined && indexOf(posterior.heats, heat) < 0 ? heatVariance(LEARNING_PRIOR) : 0) +
    (ofBowl < 0 ? posterior.bowlSd ** 2 : 0);
  const own = posterior.filmSd ** 2 + LEARNING_PRIOR.daySd ** 2;
  return { meanLn: mean + ofIcing.mean, sdLn: Math.sqrt(variance + unknown + own) };
}

const NOTHING: Moments = { mean: 0, variance: 0 };

/**
 * The sum of these parts as the other films tell it. What a film itself was found to be cuts its own distribution: counted in
 * the kitchen's too, it would count twice. Its message is taken out of the joint normal along its own parts.
 */
function withoutOwn(posterior: FactorPosterior, parts: Parts, bowl: number, film = ""): Moments {
  const mean = meanOf(posterior, parts, bowl);
  const variance = covarianceOf(posterior, parts, parts, bowl);
  const own = posterior.films[indexOf(posterior.films, film)];
  if (own === undefined) return { mean, variance };
  const left = 1 - own.precision * covarianceOf(posterior, own.parts, own.parts, bowl);
  if (!(left > LEAST_LEFT)) return { mean, variance };
  const shared = covarianceOf(posterior, parts, own.parts, bowl);
  return {
    mean: mean + (shared * (own.precision * meanOf(posterior, own.parts, bowl) - own.shift)) / left,
    variance: variance + (own.precision * shared ** 2) / left,
  };
}

/** Below this, a film's own finding is all that is known: taking it out leaves rounding. */
const LEAST_LEFT = 0.01;

/** Mean of a sum of parts, and of a bowl's own effect where one is named (−1: none). */
function meanOf(posterior: FactorPosterior, parts: Parts, bowl: number): number {
  return parts.reduce((sum, [row, by]) => sum + by * posterior.mean[row]!, posterior.bowls[bowl]?.mean ?? 0);
}

/** Covariance of two sums of parts of films out of one bowl. */
function covarianceOf(posterior: FactorPosterior, a: Parts, b: Parts, bowl: number): number {
  const own = posterior.bowls[bowl];
  let sum = own?.variance ?? 0;
  for (const [row, by] of [...a, ...b]) sum += by * (own?.covariance[row] ?? 0);
  for (const [row, by] of a)
    for (const [column, other] of b) sum += by * other * posterior.covariance[row]![column]!;
  return sum;
}

/** The kitchen beside the book: how many times as long things take here. */
export interface Comparison {
  quantity: Quantity;
  /** Empty for the kitchen overall. */
  group: { icing?: string; place?: string; heat?: string };
  /** Kitchen time / book time: median, and 10th to 90th percentile of that ratio (one film scatters more). */
  ratio: number;
  lowRatio: number;
  highRatio: number;
  tests: number;
}

/** Kitchen overall in its own air, each icing in a usual place, each place and each heat with a usual icing; only what has been tested. */
export function compareWithBook(learned: Learned): Comparison[] {
  return (["skin", "dryThrough"] as const).flatMap((quantity) => {
    if (learned.tests[quantity] === 0) return [];
    const posterior = learned.posterior[quantity];
    const row = (group: Comparison["group"], parts: Parts, tests: number): Comparison => {
      const mean = meanOf(posterior, parts, -1);
      const halfWidth = TENTH_Z * Math.sqrt(covarianceOf(posterior, parts, parts, -1));
      return {
        quantity,
        group,
        ratio: Math.exp(mean),
        lowRatio: Math.exp(mean - halfWidth),
        highRatio: Math.exp(mean + halfWidth),
        tests,
      };
    };
    const partsFor = (film: Partial<FilmOf>): Parts => partsOf(posterior, { icing: "", place: "", ...film });
    const inAir = posterior.places.reduce((sum, { tests }) => sum + tests, 0);
    return [
      ...(inAir === 0 ? [] : [row({}, partsFor({}), inAir)]),
      ...posterior.icings.map(({ name, tests }) => row({ icing: name }, partsFor({ icing: name }), tests)),
      ...posterior.places.map(({ name, tests }) => row({ place: name }, partsFor({ place: name }), tests)),
      ...posterior.heats.map(({ name, tests }) => row({ heat: name }, partsFor({ heat: name }), tests)),
    ];
  });
}
