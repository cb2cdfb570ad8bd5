import { type Air, type AirSpell, partedAt } from "#shared/drying/film/air.ts";
import { HORIZON_S } from "#shared/drying/film/constants.ts";
import { type FilmSpec, type Quantity, whyNever } from "#shared/drying/film/film.ts";
import {
  filmStart,
  followFilm,
  followOn,
  BoundaryCondition,
  meetings,
  quick,
  type Times,
  usual,
} from "#shared/drying/film/run.ts";
import type { FilmStart } from "#shared/drying/film/film-start.ts";
import { SECOND_MS } from "#shared/time.ts";
import type { Band } from "./band.ts";
import { type Belief, type FactorBelief, PRIOR_BELIEF } from "./belief.ts";
import { TENTH_Z } from "./normal.ts";
import { waterSlopes } from "./water.ts";

const bandOf = (earliestS: number, likelyS: number, latestS: number): Band => ({
  earliestMs: earliestS * SECOND_MS,
  likelyMs: likelyS * SECOND_MS,
  latestMs: Math.min(latestS, HORIZON_S) * SECOND_MS,
  ...(latestS < HORIZON_S ? {} : { latestOrMore: true }),
});

/** How well the air is known, standard deviations; a jet's given coefficient is doubted as its speed would be. */
export interface AirDoubt {
  tempSdC: number;
  rhSdPct: number;
  speedSdLn: number;
}

/** Spans from the clock's start. `never` if the median is; 14 days is as far as is looked ahead. */
export interface FilmTimes {
  skin: Band;
  dryThrough: Band;
}

export interface ForecastOptions {
  belief?: Belief;
  doubt?: AirDoubt;
  /** How well the icing's water is known, a standard deviation in points; certain when left out. */
  waterSdPct?: number;
  /** Air before this moment, s, is known. */
  doubtFromS?: number;
}

/** Slopes are taken over this many standard deviations of the air, and this much of ln factor, to the drier side. */
const PROBE_SD = -0.5;
const PROBE_LN = -0.15;
/** Followed for so long, so that none of the quick runs ends before the median does. */
const FOLLOWED_S = 4 * HORIZON_S;

/** A point in the space of what is not known, in standard deviations; positive dries later. */
interface Unknowns {
  factor: number;
  cold: number;
  damp: number;
  calm: number;
}
const AIR_UNKNOWNS = ["cold", "damp", "calm"] as const;
const MEDIAN_AIR = { cold: 0, damp: 0, calm: 0 };

/** A film at one factor: its times in the air as expected, by both solvers, and by how much each unknown moves them. */
interface Core {
  usual: Times;
  quick: Times;
  probes: Record<"factor" | (typeof AIR_UNKNOWNS)[number], Times> | undefined;
}

/**
 * The film's times with how sure they are. What is not known (the kitchen's factor, and three of the air) is normal; the
 * solver is asked how log-time leans on each, and the percentiles are the solver's own times at the likeliest point that
 * far out (first-order reliability method). So the factor stretches time itself across changes of place, and the band
 * grows lopsided where the air comes near what icing can give up water to. How much later than the median a film dries
 * through at another point, the quick solver tells; a skin, which may wait for the next change of air, takes the usual one.
 */
export function forecastFilm(
  film: FilmSpec,
  spells: readonly AirSpell[],
  options: ForecastOptions = {},
): FilmTimes {
  return new Bands(film, spells, options).forecast();
}

class Bands {
  readonly #start: FilmStart;
  readonly #spells: readonly AirSpell[];
  readonly #known: readonly BoundaryCondition[];
  /** What is believed of the factors, the water's doubt with it: more water takes longer as a larger factor does. */
  readonly #belief: Belief;
  readonly #doubt: AirDoubt | undefined;
  readonly #doubtFromS: number;
  /** One air throughout: then the factor only stretches the answer, and every run is at factor 1. */
  readonly #steady: boolean;
  /** The spell where doubt begins: probes of the air go on from it. */
  readonly #mark: number;

  constructor(film: FilmSpec, spells: readonly AirSpell[], options: ForecastOptions) {
    this.#start = filmStart(film, spells[0]!.air);
    this.#belief = widened(options.belief ?? PRIOR_BELIEF, film, spells[0]!.air, options.waterSdPct);
    this.#doubt = options.doubt;
    this.#doubtFromS = options.doubt === undefined ? 0 : Math.max(options.doubtFromS ?? 0, 0);
    this.#spells = partedAt(spells, this.#doubtFromS);
    this.#known = meetings(this.#spells);
    this.#steady = this.#spells.length === 1;
    this.#mark = this.#spells.findIndex(({ fromS }) => fromS >= this.#doubtFromS);
  }

  forecast(): FilmTimes {
    const { skin, dryThrough } = this.#belief;
    const lnFactor = (belief: FactorBelief): number => (this.#steady ? 0 : belief.meanLn);
    const core = this.#core(lnFactor(dryThrough), "dryThrough");
    const skinCore = lnFactor(skin) === lnFactor(dryThrough) ? core : this.#core(lnFactor(skin), "skin");
    return { skin: this.#band("skin", skinCore), dryThrough: this.#band("dryThrough", core) };
  }

  #core(lnFactor: number, until: Quantity): Core {
    const run = { meets: this.#known, timeScale: Math.exp(lnFactor), horizonS: FOLLOWED_S, until };
    const usually = followFilm(this.#start, run);
    const quickly = followFilm(this.#start, run, quick, this.#mark);
    if (this.#doubt === undefined || quickly[until] <= this.#doubtFromS || quickly.skin === Infinity)
      return { usual: usually, quick: quickly, probes: undefined };
    const atAir = (air: Partial<Unknowns>): Times =>
      followOn(this.#mark, { ...run, meets: this.#meets({ ...MEDIAN_AIR, ...air }) });
    const factor = this.#steady
      ? quickly
      : followFilm(this.#start, { ...run, timeScale: run.timeScale * Math.exp(PROBE_LN) }, quick);
    const [cold, damp, calm] = AIR_UNKNOWNS.map((unknown) => atAir({ [unknown]: PROBE_SD }));
    return { usual: usually, quick: quickly, probes: { factor, cold: cold!, damp: damp!, calm: calm! } };
  }

  #band(quantity: Quantity, core: Core): Band {
    const { meanLn, sdLn } = this.#belief[quantity];
    const likelyS = core.usual[quantity] * (this.#steady ? Math.exp(meanLn) : 1);
    if (likelyS > HORIZON_S)
      return { never: whyNever(this.#start, this.#spells.at(-1)!.air, quantity, HORIZON_S) };
    const slopes = this.#slopes(quantity, core);
    const length = Math.hypot(slopes.factor, slopes.cold, slopes.damp, slopes.calm);
    if (length < 1e-9 || likelyS === 0) return bandOf(likelyS, likelyS, likelyS);
    const isQuick = quantity === "dryThrough" && core.quick.dryThrough < Infinity;
    const [by, medianS] = isQuick ? [quick, core.quick.dryThrough] : [usual, core.usual[quantity]];
    const out = (z: number): number => {
      const at = along(slopes, z / length);
      const stretch = Math.exp(at.factor * sdLn);
      const run = {
        meets: this.#meets(at),
        timeScale: this.#steady ? 1 : Math.exp(meanLn) * stretch,
        horizonS: FOLLOWED_S,
        until: quantity,
      };
      const s = followFilm(this.#start, run, by)[quantity] * (this.#steady ? stretch : 1);
      return (likelyS * s) / medianS;
    };
    const earliestS = Math.min(out(-TENTH_Z), likelyS);
    return bandOf(earliestS, likelyS, Math.max(out(TENTH_Z), likelyS));
  }

  /** How much a standard deviation of each unknown adds to log-time. */
  #slopes(quantity: Quantity, { quick: median, probes }: Core): Unknowns {
    const { sdLn } = this.#belief[quantity];
    const slopes: Unknowns = { ...MEDIAN_AIR, factor: sdLn };
    const medianS = median[quantity];
    if (probes === undefined || medianS <= this.#doubtFromS || medianS === Infinity) return slopes;
    const lean = (s: number, by: number): number => (s < Infinity ? Math.log(s / medianS) / by : 0);
    for (const unknown of AIR_UNKNOWNS) slopes[unknown] = lean(probes[unknown][quantity], PROBE_SD);
    if (!this.#steady) slopes.factor = sdLn * lean(probes.factor[quantity], PROBE_LN);
    return slopes;
  }

  /**
   * The airs at this point: those that are known as they are, their speed too. That was judged, never read, but followed back
   * to the start it costs a quarter of a forecast, and a place whose air moves otherwise is learned as that place's factor.
   */
  #meets(point: Omit<Unknowns, "factor">): readonly BoundaryCondition[] {
    const doubt = this.#doubt;
    if (doubt === undefined || (point.cold === 0 && point.damp === 0 && point.calm === 0)) return this.#known;
    return this.#spells.map(({ fromS, air }, i) =>
      i < this.#mark ? this.#known[i]! : new BoundaryCondition(fromS, () => shifted(air, point, doubt)),
    );
  }
}

function widened(belief: Belief, film: FilmSpec, air: Air, waterSdPct = 0): Belief {
  if (waterSdPct === 0) return belief;
  const slopes = waterSlopes(film, air);
  const wider = (quantity: Quantity): FactorBelief => {
    const { meanLn, sdLn } = belief[quantity];
    return { meanLn, sdLn: Math.hypot(sdLn, waterSdPct * slopes[quantity]) };
  };
  return { skin: wider("skin"), dryThrough: wider("dryThrough") };
}

function along(slopes: Unknowns, by: number): Unknowns {
  return {
    factor: slopes.factor * by,
    cold: slopes.cold * by,
    damp: slopes.damp * by,
    calm: slopes.calm * by,
  };
}

function shifted(air: Air, at: Omit<Unknowns, "factor">, doubt: AirDoubt): Air {
  const slower = Math.exp(-at.calm * doubt.speedSdLn);
  const moved: Air = {
    tempC: air.tempC - at.cold * doubt.tempSdC,
    rhPct: Math.min(Math.max(air.rhPct + at.damp * doubt.rhSdPct, 0), 100),
    speedMs: air.speedMs * slower,
  };
  if (air.hWm2K !== undefined) moved.hWm2K = air.hWm2K * Math.sqrt(slower);
  return moved;
}
