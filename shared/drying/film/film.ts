import { type Air, type AirSpell, vapourPa } from "./air.ts";
import { HORIZON_S } from "./constants.ts";
import { type FilmSpec, filmStart, followFilm, meetings, type Quantity } from "./run.ts";
import type { FilmStart } from "./film-start.ts";
import { FilmSolver } from "./solver.ts";
import { dampestRhPct, restingX, saturatedActivity } from "./sugar.ts";
import { MOST_VAPOUR_PA } from "./transfer.ts";

export type { Air, AirSpell } from "./air.ts";
export type { FilmSpec, Quantity } from "./run.ts";

/** A time on the film's clock, or why it never comes. */
export type Reached = { s: number } | { never: WhyNever };

/** Why a film does not get there: figures that cannot be, air too damp for any icing or for this much drying, or too slow a film. */
export type WhyNever =
  | { code: "steam"; tempC: number; rhPct: number }
  | { code: "no-drying"; rhPct: number; limitPct: number }
  | { code: "too-damp"; quantity: Quantity; rhPct: number; limitPct: number }
  | { code: "too-slow"; quantity: Quantity; tempC: number; rhPct: number; horizonDays: number };

export interface DryingTimes {
  skin: Reached;
  dryThrough: Reached;
}

export interface FilmOptions {
  /** The kitchen's factor: model seconds are real seconds over this. Spells and answers are in real seconds. */
  timeScale?: number;
  /** Stop once this is known; the other may then be told as never. */
  until?: Quantity;
  /** Followed no longer than this, real seconds. */
  horizonS?: number;
}

export interface FilmTrace {
  s: number;
  /** Mean of the icing, and at its surface. */
  tempC: number;
  surfaceC: number;
  surfaceX: number;
  baseX: number;
  meanX: number;
  awSurface: number;
  skinned: boolean;
  dryThrough: boolean;
  /** Water gone off by the surface so far, kg/m². */
  lostKgM2: number;
}

/** When the film skins and when it is dry right through, real seconds from the clock's start. */
export function dryFilm(film: FilmSpec, spells: readonly AirSpell[], options: FilmOptions = {}): DryingTimes {
  const horizonS = options.horizonS ?? HORIZON_S;
  const start = filmStart(film, spells[0]!.air);
  const run = { meets: meetings(spells), timeScale: options.timeScale ?? 1, horizonS, until: options.until };
  const times = followFilm(start, run);
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
  options: Pick<FilmOptions, "timeScale"> = {},
): FilmTrace[] {
  const scale = options.timeScale ?? 1;
  const meets = meetings(spells);
  const solver = new FilmSolver();
  solver.begin(filmStart(film, spells[0]!.air));
  let next = 0;
  return atS.map((s) => {
    for (; next < meets.length && meets[next]!.fromS <= s; next++) {
      solver.advance(meets[next]!.fromS / scale);
      solver.meet(meets[next]!.exchange);
    }
    solver.advance(s / scale);
    const { tempC, surfaceC, surfaceX, baseX, meanX, lostKgM2 } = solver;
    const awSurface = dampestRhPct(tempC, surfaceX) / 100;
    const [skinned, dryThrough] = [solver.skinS < Infinity, solver.dryThroughS < Infinity];
    return { s, tempC, surfaceC, surfaceX, baseX, meanX, awSurface, skinned, dryThrough, lostKgM2 };
  });
}

/** Why a film that ends in this air does not get there, in figures as they are read: whole % RH, tenths of °C. */
export function whyNever(film: FilmStart, air: Air, quantity: Quantity, horizonS: number): WhyNever {
  const rhPct = Math.round(air.rhPct);
  const tempC = Math.round(10 * air.tempC) / 10;
  if (vapourPa(air) > MOST_VAPOUR_PA) return { code: "steam", tempC, rhPct };
  if (restingX(air.tempC, air.rhPct) === Infinity)
    return { code: "no-drying", rhPct, limitPct: Math.floor(100 * saturatedActivity(air.tempC)) };
  const enough = quantity === "skin" ? film.skinX : film.dryThroughX;
  const dampestPct = dampestRhPct(air.tempC, enough);
  if (air.rhPct >= dampestPct) return { code: "too-damp", quantity, rhPct, limitPct: Math.floor(dampestPct) };
  return { code: "too-slow", quantity, tempC, rhPct, horizonDays: Math.round(horizonS / 86_400) };
}
