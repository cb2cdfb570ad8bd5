import { HORIZON_S } from "./constants.ts";
import {
  type Air,
  type AirSpell,
  type FilmSpec,
  followFilm,
  filmStart,
  type Meeting,
  meetings,
  type Quantity,
  whyNever,
} from "./film.ts";
import { AirExchange } from "./transfer.ts";

/** What is believed of a log-normal factor on the model's time. */
export interface FactorBelief {
  meanLn: number;
  sdLn: number;
}
export interface Belief {
  skin: FactorBelief;
  dryThrough: FactorBelief;
}

/** Before any evidence: the model is right to a factor of 1.5. */
export const PRIOR_BELIEF: Belief = {
  skin: { meanLn: 0, sdLn: Math.log(1.5) },
  dryThrough: { meanLn: 0, sdLn: Math.log(1.5) },
};

/** How well the air is known, standard deviations; a jet's given coefficient is doubted as its speed would be. */
export interface AirDoubt {
  tempSdC: number;
  rhSdPct: number;
  speedSdLn: number;
}

/** 10th, 50th and 90th percentile, seconds from the clock's start. `never` if the median is; a `latestS` of 14 days means then or later. */
export type Quantiles = { earliestS: number; likelyS: number; latestS: number } | { never: string };
export interface FilmForecast {
  skin: Quantiles;
  dryThrough: Quantiles;
}

export interface ForecastOptions {
  belief?: Belief;
  doubt?: AirDoubt;
  /** Air before this moment, s, is known. */
  doubtFromS?: number;
}

/** Standard normal quantile of 0.9. */
const TENTH_Z = 1.2815515655446004;
/** Slopes are taken over this many standard deviations, to the side where the film dries sooner. */
const PROBE_SD = -0.5;

/** A point in the space of what is not known, in standard deviations; positive dries later. */
interface Unknowns {
  factor: number;
  cold: number;
  damp: number;
  calm: number;
}
const MEDIAN: Unknowns = { factor: 0, cold: 0, damp: 0, calm: 0 };

/**
 * The film's times with how sure they are. What is not known (the kitchen's factor, and three of the air) is normal; the
 * solver is asked how log-time leans on each, and the percentiles are the solver's own times at the likeliest point that
 * far out (first-order reliability method). So the factor stretches time itself across changes of place, and the band
 * grows lopsided where the air comes near what icing can give water up to.
 */
export function forecastFilm(
  film: FilmSpec,
  spells: readonly AirSpell[],
  options: ForecastOptions = {},
): FilmForecast {
  const belief = options.belief ?? PRIOR_BELIEF;
  const { doubt } = options;
  const start = filmStart(film);
  const from = options.doubtFromS ?? 0;
  const parted = doubt === undefined ? spells : partedAt(spells, from);
  const known = meetings(parted);
  const steady = parted.length === 1;

  const solve = (at: Unknowns, quantity: Quantity): Record<Quantity, number> => {
    const meets = doubt === undefined ? known : doubted(known, parted, from, at, doubt);
    const factor = factorAt(belief[quantity], at);
    if (!steady) return followFilm(start, meets, factor, HORIZON_S, quantity);
    const times = followFilm(start, meets, 1, HORIZON_S / factor, quantity);
    return { skin: times.skin * factor, dryThrough: times.dryThrough * factor };
  };

  const quantiles = (quantity: Quantity): Quantiles => {
    const likelyS = solve(MEDIAN, quantity)[quantity];
    if (likelyS === Infinity) return { never: whyNever(start, parted.at(-1)!.air, quantity, HORIZON_S) };
    const lean = (probe: Partial<Unknowns>): number => {
      const s = solve({ ...MEDIAN, ...probe }, quantity)[quantity];
      return s < Infinity ? Math.log(s / likelyS) / PROBE_SD : 0;
    };
    const slopes: Unknowns = {
      factor: steady || doubt === undefined ? belief[quantity].sdLn : lean({ factor: PROBE_SD }),
      cold: doubt === undefined ? 0 : lean({ cold: PROBE_SD }),
      damp: doubt === undefined ? 0 : lean({ damp: PROBE_SD }),
      calm: doubt === undefined ? 0 : lean({ calm: PROBE_SD }),
    };
    const earliestS = solve(outward(slopes, -TENTH_Z), quantity)[quantity];
    const latestS = solve(outward(slopes, TENTH_Z), quantity)[quantity];
    return {
      earliestS: Math.min(earliestS, likelyS),
      likelyS,
      latestS: Math.min(Math.max(latestS, likelyS), HORIZON_S),
    };
  };
  return { skin: quantiles("skin"), dryThrough: quantiles("dryThrough") };
}

/** The point `z` standard deviations out, along the slopes. */
function outward(slopes: Unknowns, z: number): Unknowns {
  const length = Math.hypot(slopes.factor, slopes.cold, slopes.damp, slopes.calm);
  const by = length > 0 ? z / length : 0;
  return {
    factor: slopes.factor * by,
    cold: slopes.cold * by,
    damp: slopes.damp * by,
    calm: slopes.calm * by,
  };
}

function factorAt(belief: FactorBelief, at: Unknowns): number {
  return Math.exp(belief.meanLn + at.factor * belief.sdLn);
}

/** The same spells, with one that begins at this moment. */
function partedAt(spells: readonly AirSpell[], atS: number): readonly AirSpell[] {
  const after = spells.findIndex(({ fromS }) => fromS >= atS);
  if (spells[after]?.fromS === atS || atS <= 0) return spells;
  const at = after === -1 ? spells.length : after;
  return [...spells.slice(0, at), { fromS: atS, air: spells[at - 1]!.air }, ...spells.slice(at)];
}

function doubted(
  known: readonly Meeting[],
  spells: readonly AirSpell[],
  doubtFromS: number,
  at: Unknowns,
  doubt: AirDoubt,
): readonly Meeting[] {
  if (at.cold === 0 && at.damp === 0 && at.calm === 0) return known;
  return spells.map(({ fromS, air }, i) =>
    fromS < doubtFromS ? known[i]! : { fromS, exchange: new AirExchange(shifted(air, at, doubt)) },
  );
}

function shifted(air: Air, at: Unknowns, doubt: AirDoubt): Air {
  const slower = Math.exp(-at.calm * doubt.speedSdLn);
  const moved: Air = {
    tempC: air.tempC - at.cold * doubt.tempSdC,
    rhPct: Math.min(Math.max(air.rhPct + at.damp * doubt.rhSdPct, 0), 100),
    speedMs: air.speedMs * slower,
  };
  if (air.hWm2K !== undefined) moved.hWm2K = air.hWm2K * Math.sqrt(slower);
  return moved;
}

/**
 * The factor at which the quantity is reached exactly at `atS`, real seconds: the largest that has it reached by then.
 * Undefined if no factor from 1e-6 to 1e6 does, because the air until then is too damp.
 */
export function factorReaching(
  film: FilmSpec,
  spells: readonly AirSpell[],
  quantity: Quantity,
  atS: number,
): number | undefined {
  const start = filmStart(film);
  const meets = meetings(spells.filter(({ fromS }) => fromS < atS));
  if (meets.length <= 1) {
    const [air] = meetings(spells.slice(0, 1));
    const modelS = followFilm(start, [air!], 1, WIDEST_FACTOR * Math.max(atS, 1), quantity)[quantity];
    return modelS < Infinity ? atS / modelS : undefined;
  }
  let low = -Math.log(WIDEST_FACTOR);
  let high = -low;
  let lnFactor = 0;
  const beyondS = 8 * atS;
  for (let i = 0; i < 60 && high - low > 1e-5; i++) {
    const s = followFilm(start, meets, Math.exp(lnFactor), beyondS, quantity)[quantity];
    const late = Math.log(Math.min(s, beyondS) / atS);
    if (Math.abs(late) < 1e-6) return Math.exp(lnFactor);
    if (late > 0) high = lnFactor;
    else low = lnFactor;
    const next = lnFactor - late;
    lnFactor = next > low && next < high ? next : (low + high) / 2;
  }
  return low > -Math.log(WIDEST_FACTOR) ? Math.exp(low) : undefined;
}
const WIDEST_FACTOR = 1e6;
