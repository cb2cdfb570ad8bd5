import type { Message, Moments } from "./joint-normal.ts";
import { truncatedNormal, type Truncated } from "./normal.ts";
import type { Observed } from "./parts.ts";
import { type FactorPrior, newIcingVariance } from "./prior.ts";

/** Part of the way each message moves in a sweep; all move at once, so that their order does not matter. */
const STEP = 0.9;
/** All parts together are never less known than this. */
const LEAST_CAVITY = 0.5;
/** Less is rounding. */
const LEAST_PRECISION = 1e-3;

export interface Site extends Message {
  observed: Observed;
  weight: number;
  freakMass: number;
}

export const messageOf = ({ mean, variance }: Moments): Message => ({
  precision: 1 / variance,
  shift: mean / variance,
});

/** Takes a message most of the way to the next; returns how far it went. */
export function move(site: Message, next: Message): number {
  const step = site.precision === 0 ? 1 : STEP;
  const precisionBy = step * (next.precision - site.precision);
  const shiftBy = step * (next.shift - site.shift);
  site.precision += precisionBy;
  site.shift += shiftBy;
  return Math.max(Math.abs(precisionBy), Math.abs(shiftBy));
}

/**
 * The message that leads from what the others say to these moments. What is doubtful can leave the factor less certain; a
 * message of negative precision would not be a normal, and says nothing.
 */
function between(tilted: Moments, others: Message): Message {
  const precision = 1 / tilted.variance - others.precision;
  if (precision <= 0) return { precision: 0, shift: 0 };
  return { precision, shift: tilted.mean * (precision + others.precision) - others.shift };
}

/** The message that gives an icing the moments it has under the two-sided prior; `now` as the icing is believed to be. */
export function icingMessage(site: Message, now: Moments, prior: FactorPrior): Message {
  const { icingSd, oddShare, oddSd } = prior;
  if (oddShare === 0) return { precision: 1 / icingSd ** 2, shift: 0 };
  const precision = 1 / now.variance - site.precision;
  const shift = now.mean / now.variance - site.shift;
  // Nothing else is known of it.
  if (!(precision > LEAST_PRECISION)) return { precision: 1 / newIcingVariance(prior), shift: 0 };
  const [mean, variance] = [shift / precision, 1 / precision];
  const usual = normalTimes(mean, variance, icingSd ** 2);
  const odd = normalTimes(mean, variance, oddSd ** 2);
  const usualMass = (1 - oddShare) * usual.mass;
  const share = usualMass / (usualMass + oddShare * odd.mass);
  const own = between(mixture(share, usual, odd), { precision, shift });
  // Where it wavers between usual and odd it may seem to know less than that it is odd.
  return own.precision > 1 / oddSd ** 2 ? own : { precision: 1 / oddSd ** 2, shift: 0 };
}

/** The message that gives the marginal the moments it has with the true likelihood in the message's stead. */
export function project(
  site: Site,
  now: Moments,
  prior: FactorPrior,
  { filmSd, bowlVariance }: { filmSd: number; bowlVariance: number },
): { message: Message; square: number; bowlSquare: number; trust: number } {
  const precision = 1 / now.variance - site.weight * site.precision;
  const shift = now.mean / now.variance - site.weight * site.shift;
  // All messages move at once: among films of one bowl this one may for a sweep seem to be all that is known.
  if (!(precision > LEAST_CAVITY)) return { message: site, square: 0, bowlSquare: 0, trust: 0 };
  const variance = 1 / precision;
  const mean = shift * variance;

  const ownVariance = filmSd ** 2 + bowlVariance;
  const filmVariance = variance + ownVariance;
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
  // How far the film lies from its mean, squared, as expected: its own part of that, and its bowl's.
  const apart = 1 - pull;
  const whole = apart ** 2 * (film.variance + (film.mean - mean) ** 2) + variance * apart;
  const filmPart = filmSd ** 2 / ownVariance;
  const square = filmPart ** 2 * whole + filmPart * bowlVariance;
  const bowlSquare = (1 - filmPart) ** 2 * whole + filmPart * bowlVariance;

  const message = between(tilted, { precision, shift });
  return { message, square, bowlSquare, trust };
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

/** A normal times another about nought: its moments, and how much they overlap. */
function normalTimes(mean: number, variance: number, otherVariance: number): Moments & { mass: number } {
  const total = variance + otherVariance;
  return {
    mean: (mean * otherVariance) / total,
    variance: (variance * otherVariance) / total,
    mass: Math.exp((-mean * mean) / (2 * total)) / Math.sqrt(total),
  };
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
