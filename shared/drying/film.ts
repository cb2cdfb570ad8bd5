import type { Air } from "./air.ts";
import {
  BISCUIT_HEAT_J_M3_K,
  BISCUIT_MM,
  DRY_THROUGH_X,
  HORIZON_S,
  ICING_DENSITY_KG_M3,
  ICING_HEAT_J_M3_K,
  LAID_AT_C,
  SKIN_SHARE,
  SKIN_X,
} from "./constants.ts";
import { FilmSolver, type FilmStart } from "./film-solver.ts";
import { dampestRhPct, restingX, saturatedActivity } from "./sugar.ts";
import { AirExchange } from "./transfer.ts";

export type { Air } from "./air.ts";

/** Air from a moment on, the first from 0, seconds on the film's clock; the last goes on. */
export interface AirSpell {
  fromS: number;
  air: Air;
}

/** A film as laid: thickness 0.2–12 mm, water 8–35 % of mass. */
export interface FilmSpec {
  thicknessMm: number;
  waterPct: number;
  densityKgM3?: number;
  biscuitMm?: number;
}

export type Quantity = "skin" | "dryThrough";
/** A time on the film's clock, or why it never comes. */
export type Reached = { s: number } | { never: string };
export interface DryingTimes {
  skin: Reached;
  dryThrough: Reached;
}

export interface FilmOptions {
  /** The kitchen's factor: model seconds are real seconds over this. Spells and answers are in real seconds. */
  timeScale?: number;
  /** Stop once this is known; the other may then be told as never. */
  until?: Quantity;
  startTempC?: number;
  /** Followed no longer than this, real seconds. */
  horizonS?: number;
}

export interface FilmTrace {
  s: number;
  tempC: number;
  surfaceX: number;
  baseX: number;
  meanX: number;
  awSurface: number;
  skinned: boolean;
  dryThrough: boolean;
  /** Water gone off by the surface so far, kg/m². */
  lostKgM2: number;
}

const solver = new FilmSolver();

/** When the film skins and when it is dry right through, real seconds from the clock's start. */
export function dryFilm(film: FilmSpec, spells: readonly AirSpell[], options: FilmOptions = {}): DryingTimes {
  const horizonS = options.horizonS ?? HORIZON_S;
  const start = filmStart(film, options.startTempC);
  const times = followFilm(start, meetings(spells), options.timeScale ?? 1, horizonS, options.until);
  const reached = (quantity: Quantity): Reached =>
    times[quantity] < Infinity
      ? { s: times[quantity] }
      : { never: whyNever(start, spells.at(-1)!.air, quantity, horizonS) };
  return { skin: reached("skin"), dryThrough: reached("dryThrough") };
}

/** The film's state at each of these moments, which must not go back. */
export function traceFilm(
  film: FilmSpec,
  spells: readonly AirSpell[],
  atS: readonly number[],
  options: Pick<FilmOptions, "timeScale" | "startTempC"> = {},
): FilmTrace[] {
  const scale = options.timeScale ?? 1;
  const meets = meetings(spells);
  solver.begin(filmStart(film, options.startTempC));
  solver.meet(meets[0]!.exchange);
  let next = 1;
  return atS.map((s) => {
    for (; next < meets.length && meets[next]!.fromS <= s; next++) {
      solver.advance(meets[next]!.fromS / scale);
      solver.meet(meets[next]!.exchange);
    }
    solver.advance(s / scale);
    const { tempC, surfaceX, baseX, meanX, lostKgM2 } = solver;
    const awSurface = dampestRhPct(tempC, surfaceX) / 100;
    const [skinned, dryThrough] = [solver.skinS < Infinity, solver.dryThroughS < Infinity];
    return { s, tempC, surfaceX, baseX, meanX, awSurface, skinned, dryThrough, lostKgM2 };
  });
}

/** Air as the solver meets it, from a moment of real time. */
export interface Meeting {
  fromS: number;
  exchange: AirExchange;
}

export function meetings(spells: readonly AirSpell[]): Meeting[] {
  return spells.map(({ fromS, air }) => ({ fromS, exchange: new AirExchange(air) }));
}

/** The times as bare numbers, real seconds, Infinity for what is not reached by the horizon or was not waited for. */
export function followFilm(
  start: FilmStart,
  meets: readonly Meeting[],
  timeScale: number,
  horizonS: number,
  until: Quantity = "dryThrough",
): Record<Quantity, number> {
  solver.begin(start);
  for (let i = 0; i < meets.length && meets[i]!.fromS < horizonS; i++) {
    solver.meet(meets[i]!.exchange);
    solver.advance(Math.min(meets[i + 1]?.fromS ?? horizonS, horizonS) / timeScale, until);
  }
  return { skin: solver.skinS * timeScale, dryThrough: solver.dryThroughS * timeScale };
}

/** A film in the solver's terms. */
export function filmStart(film: FilmSpec, startTempC = LAID_AT_C): FilmStart {
  const water = film.waterPct / 100;
  const x = water / (1 - water);
  const thicknessM = film.thicknessMm / 1000;
  const heatJM2K =
    thicknessM * ICING_HEAT_J_M3_K + ((film.biscuitMm ?? BISCUIT_MM) / 1000) * BISCUIT_HEAT_J_M3_K;
  const solidsKgM3 = (film.densityKgM3 ?? ICING_DENSITY_KG_M3) * (1 - water);
  const skinX = Math.min(SKIN_X, SKIN_SHARE * x);
  return { thicknessM, x, solidsKgM3, heatJM2K, tempC: startTempC, skinX, dryThroughX: DRY_THROUGH_X };
}

/** Why a film that ends in this air, does not get there: a sentence for a decorator. */
export function whyNever(film: FilmStart, air: Air, quantity: Quantity, horizonS: number): string {
  const rh = Math.round(air.rhPct);
  const limit = Math.floor(100 * saturatedActivity(air.tempC));
  if (restingX(air.tempC, air.rhPct) === Infinity)
    return `The air at ${rh} % humidity is too damp: icing gives up no more water above about ${limit} %.`;
  const enough = quantity === "skin" ? film.skinX : film.dryThroughX;
  const doing = quantity === "skin" ? "skin over" : "dry right through";
  const dampest = dampestRhPct(air.tempC, enough);
  if (air.rhPct >= dampest)
    return `The air at ${rh} % humidity is too damp for icing to ${doing}: that takes air below about ${Math.floor(dampest)} %.`;
  const days = Math.round(horizonS / 86_400);
  return `In air at ${Math.round(air.tempC)} °C and ${rh} % humidity this film would take more than ${days} days to ${doing}.`;
}
