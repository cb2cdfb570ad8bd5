import { type FactorPrior, newIcingVariance } from "./prior.ts";

/** What is believed of a log-normal factor on the model's time. */
export interface FactorBelief {
  meanLn: number;
  sdLn: number;
}
export interface Belief {
  skin: FactorBelief;
  dryThrough: FactorBelief;
}

/**
 * Where the spread before any evidence comes from. Most is the kitchen as a whole (its recipe, its hygrometer), then each film
 * and each bowl; most icings differ by about 12 %, one in eight by far more (a saturated or glycerol-rich colour; one that is
 * said to dry slowly takes from about as long to twice as long), a place by 11 %. One touch in eleven may be a freak, until the
 * kitchen's own have said how many are. Four acts in five follow a look some 20 % earlier, give or take the kitchen's habit. A
 * bowl that takes e times as many seconds to close is stiffer and sets in some two thirds of the time. Judgement, no source;
 * chosen so that bands hold in all the kitchens of `npm run bench -- learning`.
 */
export const LEARNING_PRIOR: FactorPrior = {
  kitchenSd: 0.34,
  icingSd: 0.12,
  oddShare: 1 / 8,
  oddSd: 0.45,
  slowLn: 0.3,
  slowSd: 0.35,
  placeSd: 0.11,
  daySd: 0.14,
  bowlSd: 0.2,
  bowlSdBowls: 3,
  secondsLn: -0.4,
  secondsSd: 0.3,
  filmSd: 0.25,
  filmSdFilms: 0.7,
  freakShare: 0.09,
  freakShareFindings: 10,
  freakSd: Math.log(4),
  lookShare: 0.8,
  lookLn: 0.2,
  habitSd: 0.3,
};

const { kitchenSd, placeSd, bowlSd, filmSd, daySd } = LEARNING_PRIOR;
const before: FactorBelief = {
  meanLn: 0,
  sdLn: Math.sqrt(
    kitchenSd ** 2 + newIcingVariance(LEARNING_PRIOR) + placeSd ** 2 + bowlSd ** 2 + filmSd ** 2 + daySd ** 2,
  ),
};
/** Before any evidence: the model is right to a factor of about 1.7. */
export const PRIOR_BELIEF: Belief = { skin: before, dryThrough: before };
