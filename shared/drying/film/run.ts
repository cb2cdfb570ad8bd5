import type { Air, AirSpell } from "./air.ts";
import {
  BISCUIT_HEAT_J_M3_K,
  BISCUIT_MM,
  BISCUIT_W_M_K,
  DRY_THROUGH_X,
  ICING_DENSITY_KG_M3,
  ICING_HEAT_J_M3_K,
  ICING_W_M_K,
  CRUST_BLEND,
  CRUST_X,
  UNDER_TRAY_W_M2_K,
} from "./constants.ts";
import type { FilmStart } from "./film-start.ts";
import { CELLS, FilmSolver } from "./solver.ts";
import { AirExchange } from "./exchange.ts";

/** A film as laid: thickness 0.2–12 mm, water 8–35 % of mass. */
export interface FilmSpec {
  thicknessMm: number;
  waterPct: number;
  densityKgM3?: number;
  /** Temperature of the biscuit, and of the icing where it has none of its own, °C; the first air's when left out. */
  roomC?: number;
  /** Temperature the icing was laid at, °C. */
  laidAtC?: number;
}

export type Quantity = "skin" | "dryThrough";
/** Real seconds from the clock's start; Infinity for what is not reached by the horizon, or was not waited for. */
export type Times = Record<Quantity, number>;

/** Air as the solver meets it, from a moment of real time; its exchange is worked out once it is met. */
export class BoundaryCondition {
  readonly fromS: number;
  readonly #air: () => Air;
  #exchange: AirExchange | undefined;

  constructor(fromS: number, air: () => Air) {
    this.fromS = fromS;
    this.#air = air;
  }

  get exchange(): AirExchange {
    return (this.#exchange ??= new AirExchange(this.#air()));
  }
}

export interface Run {
  meets: readonly BoundaryCondition[];
  /** Real seconds a model second. */
  timeScale: number;
  horizonS: number;
  /** Follow no further than this; dry through unless told. */
  until?: Quantity | undefined;
}

const QUICK_CELLS = 11;
const QUICK_TOLERANCE = 8;
export const usual = new FilmSolver();
/** For how the time to dry through differs from one air or factor to another, in a third of the work. */
export const quick = new FilmSolver(QUICK_CELLS, QUICK_TOLERANCE);
/** The film last followed by the quick solver, as it met the spell it was told to mark. */
const marked = new FilmSolver(QUICK_CELLS);

/** Cells times steps worked out so far, by every film that was followed: for the bench. */
export const workSoFar = (): number => CELLS * usual.steps + QUICK_CELLS * quick.steps;

export function meetings(spells: readonly AirSpell[]): BoundaryCondition[] {
  return spells.map(({ fromS, air }) => new BoundaryCondition(fromS, () => air));
}

/**
 * How far down the biscuit its one temperature lies, as a share of its depth: what it takes up in the minutes of a heat-set
 * stays near the icing. Chosen against the fine solver of tests/reference/fine-film.
 */
const BISCUIT_DEPTH_SHARE = 0.25;

/** A film in the solver's terms, laid in this air. */
export function filmStart(film: FilmSpec, air: Air): FilmStart {
  const water = film.waterPct / 100;
  const x = water / (1 - water);
  const thicknessM = film.thicknessMm / 1000;
  const biscuitM = BISCUIT_MM / 1000;
  const halfIcing = thicknessM / 2 / ICING_W_M_K;
  const biscuitM2KW = biscuitM / BISCUIT_W_M_K;
  const roomC = film.roomC ?? air.tempC;
  return {
    thicknessM,
    x,
    solidsKgM3: (film.densityKgM3 ?? ICING_DENSITY_KG_M3) * (1 - water),
    icingJM2K: thicknessM * ICING_HEAT_J_M3_K,
    biscuitJM2K: biscuitM * BISCUIT_HEAT_J_M3_K,
    faceWm2K: 1 / halfIcing,
    betweenWm2K: 1 / (halfIcing + BISCUIT_DEPTH_SHARE * biscuitM2KW),
    underWm2K: 1 / ((1 - BISCUIT_DEPTH_SHARE) * biscuitM2KW + 1 / UNDER_TRAY_W_M2_K),
    icingC: film.laidAtC ?? roomC,
    biscuitC: roomC,
    skinX: x / (1 + (x / CRUST_X) ** CRUST_BLEND) ** (1 / CRUST_BLEND),
    dryThroughX: DRY_THROUGH_X,
  };
}

/** Follows a film from when it was laid. The quick solver marks its state as it meets the spell `mark`. */
export function followFilm(start: FilmStart, run: Run, solver = usual, mark?: number): Times {
  solver.begin(start);
  return goOn(solver, run, 0, mark);
}

/** Goes on with the quick solver from the marked spell: the airs before it are those of the run that marked. */
export function followOn(mark: number, run: Run): Times {
  quick.copy(marked);
  return goOn(quick, run, mark);
}

function goOn(
  solver: FilmSolver,
  { meets, timeScale, horizonS, until = "dryThrough" }: Run,
  from: number,
  mark?: number,
): Times {
  const waitedFor = (): number => (until === "skin" ? solver.skinS : solver.dryThroughS);
  for (let i = from; i < meets.length && meets[i]!.fromS < horizonS && waitedFor() === Infinity; i++) {
    if (mark === i) marked.copy(solver);
    const { exchange } = meets[i]!;
    if (i === meets.length - 1 && !solver.canGetOn(exchange)) break;
    solver.meet(exchange);
    solver.advance(Math.min(meets[i + 1]?.fromS ?? horizonS, horizonS) / timeScale, until);
  }
  return { skin: solver.skinS * timeScale, dryThrough: solver.dryThroughS * timeScale };
}
