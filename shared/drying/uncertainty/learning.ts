import { type FactorPosterior, type FactorPrior, factorFitSteps, indexOf, type Observed } from "./fit.ts";
import type { Quantity } from "#shared/drying/film/film.ts";
import { type Belief, type FactorBelief, PRIOR_BELIEF } from "./forecast.ts";
import { type Moments, sumOf } from "./joint-normal.ts";
import { TENTH_Z } from "./normal.ts";

/**
 * What one film says of ln(its time / the model's time): between `lnLow` and `lnHigh`, open ends as ∓Infinity, both the
 * same for an exact time. One item for each film and quantity: its touch tests and acts taken together.
 */
export interface Evidence {
  quantity: Quantity;
  icing: string;
  place: string;
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

const KITCHEN_SD = 0.3;
const ICING_SD = 0.12;
const PLACE_SD = 0.15;

/**
 * Where the spread of ln 1.5 before any evidence comes from. Most is the kitchen as a whole (its recipe, its hygrometer);
 * an icing differs by about 12 %, a place by 15 %, one film from the next by what is left, 19 %. One tap in ten may be a
 * freak. Four acts in five follow a look some 20 % earlier, give or take the kitchen's habit. Judgement, no source.
 */
export const LEARNING_PRIOR: FactorPrior = {
  kitchenSd: KITCHEN_SD,
  icingSd: ICING_SD,
  placeSd: PLACE_SD,
  filmSd: Math.sqrt(PRIOR_BELIEF.skin.sdLn ** 2 - KITCHEN_SD ** 2 - ICING_SD ** 2 - PLACE_SD ** 2),
  freakShare: 0.1,
  freakSd: Math.log(4),
  lookShare: 0.8,
  lookLn: 0.2,
  habitSd: 0.3,
};

/** What was learned, and from what. */
export interface Lessons {
  evidence: readonly Evidence[];
  learned: Learned;
}

/**
 * Learns both factors from evidence. The answer depends on the set of items alone, not on their order, so taking a test
 * back is learning again without it. `freakShare` 0 takes every item at its word. Throws RangeError for bounds that are
 * not numbers or cross.
 */
export function learn(evidence: readonly Evidence[], freakShare = LEARNING_PRIOR.freakShare): Learned {
  const steps = learningSteps(evidence, undefined, freakShare);
  let step = steps.next();
  while (step.done !== true) step = steps.next();
  return step.value;
}

/** As `learn`, a step of up to a millisecond at a time; a quantity of which `before` says the same is not learned again. */
export function* learningSteps(
  evidence: readonly Evidence[],
  before?: Lessons,
  freakShare = LEARNING_PRIOR.freakShare,
): Generator<void, Learned> {
  const prior = { ...LEARNING_PRIOR, freakShare };
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
    .map((item) => ({ ...item, lnLow: tamed(item.lnLow), lnHigh: tamed(item.lnHigh) }));
}

/** What to expect of a new film of this icing in this place: the factor, its offsets, and film-to-film scatter. */
export function beliefFor(learned: Learned, icing: string, place: string): Belief {
  return {
    skin: factorBelief(learned, "skin", icing, place),
    dryThrough: factorBelief(learned, "dryThrough", icing, place),
  };
}

function factorBelief(learned: Learned, quantity: Quantity, icing: string, place: string): FactorBelief {
  if (learned.tests[quantity] === 0) return PRIOR_BELIEF[quantity];
  const posterior = learned.posterior[quantity];
  const known = { icing: indexOf(posterior.icings, icing), place: indexOf(posterior.places, place) };
  const { mean, variance } = factorOf(posterior, known);
  const newIcing = known.icing < 0 ? LEARNING_PRIOR.icingSd ** 2 : 0;
  const newPlace = known.place < 0 ? LEARNING_PRIOR.placeSd ** 2 : 0;
  return { meanLn: mean, sdLn: Math.sqrt(variance + newIcing + newPlace + LEARNING_PRIOR.filmSd ** 2) };
}

/** The kitchen's mean plus the offsets asked for; an index of −1 leaves that offset out. */
function factorOf(posterior: FactorPosterior, offsets: { icing: number; place: number }): Moments {
  const rows = [0];
  if (offsets.icing >= 0) rows.push(1 + offsets.icing);
  if (offsets.place >= 0) rows.push(1 + posterior.icings.length + offsets.place);
  return sumOf(posterior, rows);
}

/** The kitchen beside the book: how many times as long things take here. */
export interface Comparison {
  quantity: Quantity;
  /** Empty for the kitchen overall. */
  group: { icing?: string; place?: string };
  /** Kitchen time / book time: median, and 10th to 90th percentile of that ratio (one film scatters more). */
  ratio: number;
  lowRatio: number;
  highRatio: number;
  tests: number;
}

/** Kitchen overall, then each icing in a usual place, then each place with a usual icing; only what has been tested. */
export function compareWithBook(learned: Learned): Comparison[] {
  return (["skin", "dryThrough"] as const).flatMap((quantity) => {
    if (learned.tests[quantity] === 0) return [];
    const posterior = learned.posterior[quantity];
    const row = (group: Comparison["group"], icing: number, place: number, tests: number): Comparison => {
      const { mean, variance } = factorOf(posterior, { icing, place });
      const halfWidth = TENTH_Z * Math.sqrt(variance);
      return {
        quantity,
        group,
        ratio: Math.exp(mean),
        lowRatio: Math.exp(mean - halfWidth),
        highRatio: Math.exp(mean + halfWidth),
        tests,
      };
    };
    return [row({}, -1, -1, learned.tests[quantity])].concat(
      posterior.icings.map(({ name, tests }, index) => row({ icing: name }, index, -1, tests)),
      posterior.places.map(({ name, tests }, index) => row({ place: name }, -1, index, tests)),
    );
  });
}
