import type { AirSpell } from "./air.ts";
import {
  BISCUIT_HEAT_J_M3_K,
  BISCUIT_MM,
  DRY_THROUGH_X,
  ICING_DENSITY_KG_M3,
  ICING_HEAT_J_M3_K,
  LAID_AT_C,
  SKIN_SHARE,
  SKIN_X,
} from "./constants.ts";
import { FilmSolver, type FilmStart } from "./film-solver.ts";
import { AirExchange } from "./transfer.ts";

/** A film as laid: thickness 0.2–12 mm, water 8–35 % of mass. */
export interface FilmSpec {
  thicknessMm: number;
  waterPct: number;
  densityKgM3?: number;
  biscuitMm?: number;
}

export type Quantity = "skin" | "dryThrough";
/** Real seconds from the clock's start; Infinity for what is not reached by the horizon, or was not waited for. */
export type Times = Record<Quantity, number>;

/** Air as the solver meets it, from a moment of real time. */
export interface Meeting {
  fromS: number;
  exchange: AirExchange;
}

export interface Run {
  meets: readonly Meeting[];
  /** Real seconds a model second. */
  timeScale: number;
  horizonS: number;
  /** Follow no further than this; dry through unless told. */
  until?: Quantity | undefined;
}

/** A film as it met the spell of this index, to go on from in other airs than those it met. */
export interface Mark {
  spell: number;
  solver: FilmSolver;
}

const solver = new FilmSolver();

/** Steps worked out so far by every film that was followed: for the bench. */
export const stepsSoFar = (): number => solver.steps;

export function meetings(spells: readonly AirSpell[]): Meeting[] {
  return spells.map(({ fromS, air }) => ({ fromS, exchange: new AirExchange(air) }));
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

/** Follows a film from when it was laid, and keeps its state in `mark` if it comes so far. */
export function followFilm(start: FilmStart, run: Run, mark?: Mark): Times {
  solver.begin(start);
  return goOn(run, 0, mark);
}

/** Follows a film on from a mark, where the run's airs before it were the same. */
export function followFrom(mark: Mark, run: Run): Times {
  solver.copy(mark.solver);
  return goOn(run, mark.spell);
}

function goOn({ meets, timeScale, horizonS, until = "dryThrough" }: Run, from: number, mark?: Mark): Times {
  const waitedFor = (): number => (until === "skin" ? solver.skinS : solver.dryThroughS);
  for (let i = from; i < meets.length && meets[i]!.fromS < horizonS && waitedFor() === Infinity; i++) {
    if (mark?.spell === i) mark.solver.copy(solver);
    solver.meet(meets[i]!.exchange);
    solver.advance(Math.min(meets[i + 1]?.fromS ?? horizonS, horizonS) / timeScale, until);
  }
  return { skin: solver.skinS * timeScale, dryThrough: solver.dryThroughS * timeScale };
}
