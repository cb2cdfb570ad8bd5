import type { Air, AirSpell } from "./air.ts";
import { HORIZON_S } from "./constants.ts";
import { type FilmSpec, type Quantity, whyNever } from "./film.ts";
import { filmStart, followFilm, followFrom, type Mark, type Meeting, meetings } from "./film-run.ts";
import { FilmSolver, type FilmStart } from "./film-solver.ts";
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
const UNKNOWNS = ["cold", "damp", "calm", "factor"] as const;

const markSolver = new FilmSolver();

/**
 * The film's times with how sure they are. What is not known (the kitchen's factor, and three of the air) is normal; the
 * solver is asked how log-time leans on each, and the percentiles are the solver's own times at the likeliest point that
 * far out (first-order reliability method). So the factor stretches time itself across changes of place, and the band
 * grows lopsided where the air comes near what icing can give up water to.
 */
export function forecastFilm(
  film: FilmSpec,
  spells: readonly AirSpell[],
  options: ForecastOptions = {},
): FilmForecast {
  const bands = new Bands(film, spells, options);
  return { skin: bands.of("skin"), dryThrough: bands.of("dryThrough") };
}

class Bands {
  readonly #start: FilmStart;
  readonly #spells: readonly AirSpell[];
  readonly #known: readonly Meeting[];
  readonly #belief: Belief;
  readonly #doubt: AirDoubt | undefined;
  readonly #doubtFromS: number;
  /** One air throughout: then the factor only stretches the answer. */
  readonly #steady: boolean;
  /** The median film where doubt begins: probes of the air go on from it. */
  readonly #mark: Mark;

  constructor(film: FilmSpec, spells: readonly AirSpell[], options: ForecastOptions) {
    this.#start = filmStart(film);
    this.#belief = options.belief ?? PRIOR_BELIEF;
    this.#doubt = options.doubt;
    this.#doubtFromS = options.doubt === undefined ? 0 : Math.max(options.doubtFromS ?? 0, 0);
    this.#spells = partedAt(spells, this.#doubtFromS);
    this.#known = meetings(this.#spells);
    this.#steady = this.#spells.length === 1;
    this.#mark = {
      spell: this.#spells.findIndex(({ fromS }) => fromS >= this.#doubtFromS),
      solver: markSolver,
    };
  }

  of(quantity: Quantity): Quantiles {
    const likelyS = this.#reachedS(MEDIAN, quantity);
    if (likelyS === Infinity)
      return { never: whyNever(this.#start, this.#spells.at(-1)!.air, quantity, HORIZON_S) };
    const slopes = this.#slopes(quantity, likelyS);
    const length = Math.hypot(slopes.factor, slopes.cold, slopes.damp, slopes.calm);
    if (length < 1e-9) return { earliestS: likelyS, likelyS, latestS: likelyS };
    const out = (z: number): number => this.#reachedS(along(slopes, z / length), quantity);
    const earliestS = Math.min(out(-TENTH_Z), likelyS);
    return { earliestS, likelyS, latestS: Math.min(Math.max(out(TENTH_Z), likelyS), HORIZON_S) };
  }

  /** How much a standard deviation of each unknown adds to log-time. */
  #slopes(quantity: Quantity, likelyS: number): Unknowns {
    const slopes = { ...MEDIAN, factor: this.#belief[quantity].sdLn };
    if (this.#doubt === undefined || likelyS <= this.#doubtFromS) return slopes;
    for (const unknown of UNKNOWNS) {
      if (unknown === "factor" && (this.#steady || slopes.factor === 0)) continue;
      const s = this.#reachedS({ ...MEDIAN, [unknown]: PROBE_SD }, quantity);
      slopes[unknown] = s < Infinity ? Math.log(s / likelyS) / PROBE_SD : 0;
    }
    return slopes;
  }

  /** When the quantity is reached at this point, s; Infinity if not within the horizon. The median comes first. */
  #reachedS(point: Unknowns, quantity: Quantity): number {
    const { meanLn, sdLn } = this.#belief[quantity];
    const factor = Math.exp(meanLn + point.factor * sdLn);
    const [timeScale, stretch] = this.#steady ? [1, factor] : [factor, 1];
    const run = { meets: this.#meets(point), timeScale, horizonS: HORIZON_S / stretch, until: quantity };
    if (point === MEDIAN) return stretch * followFilm(this.#start, run, this.#mark)[quantity];
    const past = this.#steady || point.factor === 0;
    return stretch * (past ? followFrom(this.#mark, run) : followFilm(this.#start, run))[quantity];
  }

  /** The airs at this point: those that are known as they are. */
  #meets(point: Unknowns): readonly Meeting[] {
    const doubt = this.#doubt;
    if (doubt === undefined || (point.cold === 0 && point.damp === 0 && point.calm === 0)) return this.#known;
    return this.#spells.map(({ fromS, air }, i) =>
      i < this.#mark.spell
        ? this.#known[i]!
        : { fromS, exchange: new AirExchange(shifted(air, point, doubt)) },
    );
  }
}

function along(slopes: Unknowns, by: number): Unknowns {
  return {
    factor: slopes.factor * by,
    cold: slopes.cold * by,
    damp: slopes.damp * by,
    calm: slopes.calm * by,
  };
}

/** The same spells, with one that begins at this moment. */
function partedAt(spells: readonly AirSpell[], atS: number): readonly AirSpell[] {
  const before = spells.filter(({ fromS }) => fromS < atS);
  const at = before.length;
  if (at === 0 || spells[at]?.fromS === atS) return spells;
  return [...spells.slice(0, at), { fromS: atS, air: spells[at - 1]!.air }, ...spells.slice(at)];
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
  const meets = meetings(spells.filter(({ fromS }, i) => i === 0 || fromS < atS));
  const reachedS = (timeScale: number, horizonS: number): number =>
    followFilm(start, { meets, timeScale, horizonS, until: quantity })[quantity];
  if (meets.length === 1) {
    const modelS = reachedS(1, WIDEST_FACTOR * Math.max(atS, 1));
    return modelS < Infinity ? atS / modelS : undefined;
  }
  const beyondS = 8 * atS;
  const latenessAt = (ln: number): number =>
    Math.log(Math.min(reachedS(Math.exp(ln), beyondS), beyondS) / atS);
  // Steps that double until one factor is too quick and one too slow, then false position between them (Illinois).
  let quick: { ln: number; late: number } | undefined;
  let slow: { ln: number; late: number } | undefined;
  let lastSide: "quick" | "slow" | undefined;
  let ln = 0;
  for (let i = 0; i < 60; i++) {
    const late = latenessAt(ln);
    if (Math.abs(late) < 1e-6) return Math.exp(ln);
    const side = late > 0 ? "slow" : "quick";
    if (side === "slow") slow = { ln, late };
    else quick = { ln, late };
    if (quick === undefined || slow === undefined) {
      if (Math.abs(ln) >= LN_WIDEST) break;
      ln = Math.min(Math.max(ln - late * 2 ** i, -LN_WIDEST), LN_WIDEST);
    } else {
      if (slow.ln - quick.ln < 1e-5) break;
      if (side === lastSide) (side === "slow" ? quick : slow).late /= 2;
      ln = quick.ln + ((slow.ln - quick.ln) * quick.late) / (quick.late - slow.late);
    }
    lastSide = side;
  }
  return quick === undefined ? undefined : Math.exp(quick.ln);
}
const WIDEST_FACTOR = 1e6;
const LN_WIDEST = Math.log(WIDEST_FACTOR);
