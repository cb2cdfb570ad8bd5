import type { Moments } from "./joint-normal.ts";

/** Standard deviations of ln(factor) by where the difference comes from, and how far observations are trusted. */
export interface FactorPrior {
  kitchenSd: number;
  /** Most icings differ this little; a share of them, `oddShare`, by `oddSd`: a saturated or glycerol-rich colour. */
  icingSd: number;
  oddShare: number;
  oddSd: number;
  /** An icing that is said to dry slowly: by how much is left wide open. */
  slowLn: number;
  slowSd: number;
  placeSd: number;
  /** How far today may be from what was found of late. */
  daySd: number;
  /** From one bowl of an icing to the next, to begin with; learned as if that many bowls had said so. */
  bowlSd: number;
  bowlSdBowls: number;
  /** How a bowl's seconds test leans: by e times as many seconds, this much in ln, give or take. */
  secondsLn: number;
  secondsSd: number;
  /** From one film to the next out of one bowl in one place, to begin with; learned as if that many films had said so. */
  filmSd: number;
  filmSdFilms: number;
  /** Share of observations that say nothing of the film (wrong tray, late tap), to begin with; 0 switches robustness off. */
  freakShare: number;
  /** Learned as if that many touch tests had said so. */
  freakShareFindings: number;
  /** Where those fall, about ln 1 = 0. */
  freakSd: number;
  /** Share of acts that follow a look nobody recorded, and how long before the act that was, in ln. */
  lookShare: number;
  lookLn: number;
  /** How far this kitchen's habit of acting soon or late may be from that. */
  habitSd: number;
}

/** Variance of an icing of which nothing is known. */
export const newIcingVariance = ({ icingSd, oddShare, oddSd }: FactorPrior): number =>
  (1 - oddShare) * icingSd ** 2 + oddShare * oddSd ** 2;

/** What is believed of an icing before any of its films was found. */
export const newIcing = (prior: FactorPrior, isSlow: boolean): Moments =>
  isSlow
    ? { mean: prior.slowLn, variance: prior.slowSd ** 2 }
    : { mean: 0, variance: newIcingVariance(prior) };

/** Variance of a heat of which nothing is known: it has no share in the kitchen's own factor. */
export const heatVariance = ({ kitchenSd, placeSd }: FactorPrior): number => kitchenSd ** 2 + placeSd ** 2;
