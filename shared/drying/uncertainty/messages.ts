import type { Message, Moments } from "./joint-normal.ts";
import { truncatedNormal, type Truncated } from "./normal.ts";
import type { Observed } from "./parts.ts";
import { type FactorPrior, newIcingVariance } from "./prior.ts";

/** Part of the way each message moves in a sweep; all move at once, so that their order does not matter. */
const STEP = 0.9;
/** Messages that so many sweeps have not settled chase one another: from there they move by less. */
const CHASE_SWEEPS = 24;
const CHASE_STEP = 0.4;

export const stepOf = (sweep: number): number => (sweep < CHASE_SWEEPS ? STEP : CHASE_STEP);
/** All parts together are never less known than this. */
const LEAST_CAVITY = 0.5;
/** Of an icing of which all else says less than this, nothing else is known. */
const LEAST_PRECISION = 0.1;

export interface Site extends Message {
  observed: Observed;
  weight: number;
  /** Probability of what was seen, if it is a freak. */
  freakMass: number;
}

export const messageOf = ({ mean, variance }: Moments): Message => ({
  precision: 1 / variance,
  shift: mean / variance,
});

/** Takes a message most of the way to the next; returns how far it went. */
export function move(site: Message, next: Message, part: number): number {
  const step = site.precision === 0 ? 1 : part;
  const precisionBy = step * (next.precision - site.precision);
  const shiftBy = step * (next.shift - site.shift);
  site.precision += precisionBy;
  site.shift += shiftBy;
  return Math.max(Math.abs(precisionBy), Math.abs(shiftBy));
}

/**
 * The message that leads from what the others say to these moments. What is doubtful can leave the factor less certain; a
 * message of less than the least precision would not be a normal: it then leads to the mean alone.
 */
function between(tilted: Moments, others: Message, least: number): Message {
  const precision = Math.max(least, 1 / tilted.variance - others.precision);
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
  const share = 1 / (1 + (oddShare / (1 - oddShare)) * Math.exp(odd.lnMass - usual.lnMass));
  // Where it wavers between usual and odd it may seem to know less than that it is odd.
  return between(mixture(share, usual, odd), { precision, shift }, 1 / oddSd ** 2);
}

/** What an observation comes to. */
interface Told {
  message: Message;
  /** How far its film, and its bowl, lies from the next, squared and as expected. */
  square: number;
  bowlSquare: number;
  /** The chance that it is of its film. */
  trust: number;
}

/** The message that gives the marginal the moments it has with the true likelihood in the message's stead. */
export function project(
  site: Site,
  now: Moments,
  prior: FactorPrior,
  learned: { freakShare: number; filmVariance: number; bowlVariance: number },
): Told | undefined {
  const { freakShare, filmVariance: betweenFilms, bowlVariance } = learned;
  const precision = 1 / now.variance - site.weight * site.precision;
  const shift = now.mean / now.variance - site.weight * site.shift;
  // All messages move at once: among films of one bowl this one may for a sweep seem to be all that is known.
  if (!(precision > LEAST_CAVITY)) return undefined;
  const variance = 1 / precision;
  const mean = shift * variance;

  const ownVariance = betweenFilms + bowlVariance;
  const filmVariance = variance + ownVariance;
  const film = filmGiven(site.observed, mean, Math.sqrt(filmVariance), prior);
  const freakMass = freakShare * site.freakMass;
  const filmMass = (1 - freakShare) * film.mass;
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
  const filmPart = betweenFilms / ownVariance;
  const square = filmPart ** 2 * whole + filmPart * bowlVariance;
  const bowlSquare = (1 - filmPart) ** 2 * whole + filmPart * bowlVariance;

  const message = between(tilted, { precision, shift }, 0);
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
function normalTimes(mean: number, variance: number, otherVariance: number): Moments & { lnMass: number } {
  const total = variance + otherVariance;
  return {
    mean: (mean * otherVariance) / total,
    variance: (variance * otherVariance) / total,
    lnMass: (-mean * mean) / (2 * total) - Math.log(total) / 2,
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
