import { ACTIVATION_J_MOL, DIFFUSIVITY_AT_K, DIFFUSIVITY_M2_S, GAS_J_MOL_K, ZERO_C_K } from "./constants.ts";
import { FilmGrid } from "./grid.ts";
import { crossing, solveFlux } from "./roots.ts";
import type { Exchange } from "./transfer.ts";

/** TR-BDF2 as a three-stage method (Hosea & Shampine 1996): both solves share the weight D, the third is the answer. */
const D = 1 - Math.SQRT1_2;
const W = Math.SQRT2 / 4;
/** Its answer less that of the embedded third-order formula, by stage. */
const E1 = (4 * W - 1) / 3;
const E2 = -1 / 3;
const E3 = (2 * D) / 3;

export const CELLS = 20;

/** Steps are chosen so that none errs by more than this in X of skin or base, or in temperature… */
const TOLERANCE_X = 3e-4;
/** …nor by more than this share of what the skin has to lose. */
const TOLERANCE_SHARE = 7.5e-3;
const TOLERANCE_K = 0.15;
const FIRST_STEP_S = 2;
/** Longest first step after a change of air, s. */
const AFTER_CHANGE_S = 300;
const SHORTEST_STEP_S = 1e-6;
/** In shorter steps a difference over the step is more rounding than rate: the next, longer one would make it water, s. */
const ROUNDING_STEP_S = 1;
/** A stage is solved again with the diffusivity of its own temperature if that was guessed this wrong, K. */
const GUESS_K = 0.1;

/** Diffusivity of water in icing, m²/s. */
export function diffusivityM2S(tempC: number): number {
  const k = tempC + ZERO_C_K;
  return DIFFUSIVITY_M2_S * Math.exp((ACTIVATION_J_MOL / GAS_J_MOL_K) * (1 / DIFFUSIVITY_AT_K - 1 / k));
}

export interface FilmStart {
  thicknessM: number;
  /** Water, kg a kg solids. */
  x: number;
  solidsKgM3: number;
  heatJM2K: number;
  tempC: number;
  skinX: number;
  dryThroughX: number;
}

/**
 * One film of icing followed in time. The coordinate is fixed to the solids: cell 0 lies on the biscuit, the last at
 * the surface. Each stage is linear in X for a given diffusivity, so one sweep from base to surface leaves one equation,
 * in the flux off the surface. Holds its own scratch: nothing is allocated while stepping.
 */
export class FilmSolver {
  /** Time since `begin`, s. */
  s = 0;
  tempC = 0;
  /** Water gone off by the surface, kg/m²: summed apart from X, so that the two can be held against each other. */
  lostKgM2 = 0;
  /** When skin and base got there, s; Infinity until they do. */
  skinS = Infinity;
  dryThroughS = Infinity;
  /** Steps worked out, taken or not, over all films: the bench's measure of the work. */
  steps = 0;

  readonly #grid: FilmGrid;
  readonly #tolerance: number;
  #toleranceX = TOLERANCE_X;
  #film: FilmStart = { thicknessM: 0, x: 0, solidsKgM3: 1, heatJM2K: 1, tempC: 0, skinX: 0, dryThroughX: 0 };
  #exchange: Exchange | undefined;
  #step = FIRST_STEP_S;
  #flux = 0;
  #tempRate = 0;
  #x: Float64Array;
  #rate: Float64Array;
  #newX: Float64Array;
  #newRate: Float64Array;
  readonly #midX: Float64Array;
  readonly #midRate: Float64Array;
  readonly #known: Float64Array;
  readonly #water: Float64Array;
  /** The matrix of a stage, eliminated from base to surface, for one `lead` and the diffusivity of one temperature. */
  readonly #share: Float64Array;
  readonly #link: Float64Array;
  #topShare = 0;
  #matrixLead = 0;
  #matrixC = 0;
  #matrixM2S = 0;
  #stageTempC = 0;
  #stageFlux = 0;
  #midFlux = 0;
  #newTempRate = 0;

  /**
   * Fewer `cells` and a larger `tolerance` (a factor) make the quick solver; more and a smaller one are for checking that
   * the usual ones are enough.
   */
  constructor(cells = CELLS, tolerance = 1) {
    this.#grid = new FilmGrid(cells);
    this.#tolerance = tolerance;
    const row = (): Float64Array => new Float64Array(cells);
    [this.#x, this.#rate, this.#newX, this.#newRate] = [row(), row(), row(), row()];
    [this.#midX, this.#midRate, this.#known, this.#water] = [row(), row(), row(), row()];
    [this.#share, this.#link] = [row(), row()];
  }

  /** Lays a film of one water content and temperature at time 0; `meet` comes next. */
  begin(film: FilmStart): void {
    this.#grid.cut(film.thicknessM);
    this.#matrixLead = 0;
    this.#film = film;
    this.#toleranceX = Math.min(TOLERANCE_X, TOLERANCE_SHARE * (film.x - film.skinX));
    this.#exchange = undefined;
    this.#x.fill(film.x);
    this.s = 0;
    this.tempC = film.tempC;
    this.lostKgM2 = 0;
    this.#flux = 0;
    this.#step = FIRST_STEP_S;
    this.skinS = film.x <= film.skinX ? 0 : Infinity;
    this.dryThroughS = film.x <= film.dryThroughX ? 0 : Infinity;
  }

  /** Takes on the film and the state of another with as many cells. */
  copy(other: FilmSolver): void {
    this.#film = other.#film;
    this.#toleranceX = other.#toleranceX;
    this.#exchange = other.#exchange;
    this.#x.set(other.#x);
    this.#rate.set(other.#rate);
    this.#grid.copy(other.#grid);
    this.#matrixLead = 0;
    this.#step = other.#step;
    this.#flux = other.#flux;
    this.#tempRate = other.#tempRate;
    this.s = other.s;
    this.tempC = other.tempC;
    this.lostKgM2 = other.lostKgM2;
    this.skinS = other.skinS;
    this.dryThroughS = other.dryThroughS;
  }

  /** From now on the film meets this at its surface. */
  meet(exchange: Exchange): void {
    this.#exchange = exchange;
    this.#setRates();
    this.#step = Math.min(this.#step, AFTER_CHANGE_S);
  }

  /** Works the rates of change out from the state itself. */
  #setRates(): void {
    const exchange = this.#exchange!;
    const { solidsKgM3, heatJM2K } = this.#film;
    const top = this.#grid.cells - 1;
    const diffusivity = diffusivityM2S(this.tempC);
    const half = this.#grid.widthM[top]! / (2 * solidsKgM3 * diffusivity);
    this.#flux = solveFlux(exchange, this.#x[top]!, half, this.tempC, 0, this.#flux);
    this.#tempRate =
      (exchange.heatWm2K * (exchange.airC - this.tempC) - exchange.latentJKg * this.#flux) / heatJM2K;
    let below = 0;
    for (let i = 0; i < top; i++) {
      const above = diffusivity * this.#grid.nearPerM[i]! * (this.#x[i + 1]! - this.#x[i]!);
      this.#rate[i] = (above - below) / this.#grid.widthM[i]!;
      below = above;
    }
    this.#rate[top] = (-this.#flux / solidsKgM3 - below) / this.#grid.widthM[top]!;
  }

  /** Goes on to this time, or stops short of it once skin or base got there, if told to. */
  advance(toS: number, until?: "skin" | "dryThrough"): void {
    while (this.s < toS) {
      if (until === "skin" ? this.skinS < Infinity : until === "dryThrough" && this.dryThroughS < Infinity)
        return;
      const left = toS - this.s;
      const dt = this.#step >= left ? left : Math.min(this.#step, Math.max(left / 2, SHORTEST_STEP_S));
      const error = this.#try(dt);
      if (error > 1 && dt > SHORTEST_STEP_S) {
        // Right after a change of air the error falls off with a lower power of the step than the third.
        this.#step = dt * Math.max(0.9 / error ** 0.65, 0.1);
        continue;
      }
      const change = 0.9 / Math.cbrt(Math.max(error, 1e-3));
      this.#take(dt);
      if (dt < ROUNDING_STEP_S) this.#setRates();
      this.s = dt === left ? toS : this.s + dt;
      this.#step = dt < this.#step ? Math.max(this.#step, dt * change) : dt * change;
    }
  }

  get surfaceX(): number {
    const top = this.#grid.cells - 1;
    return (
      this.#x[top]! -
      (this.#flux * this.#grid.widthM[top]!) / (2 * this.#film.solidsKgM3 * diffusivityM2S(this.tempC))
    );
  }
  get baseX(): number {
    return this.#grid.atBase(this.#x);
  }
  get skinX(): number {
    return this.#grid.ofSkin(this.#x);
  }
  get meanX(): number {
    return this.#grid.mean(this.#x);
  }

  /** Works out a step of `dt` without taking it; its error, in tolerances. */
  #try(dt: number): number {
    this.steps++;
    const cells = this.#grid.cells;
    const lead = D * dt;
    const known = this.#known;
    const x = this.#x;
    const rate = this.#rate;
    const mid = this.#midRate;
    for (let i = 0; i < cells; i++) known[i] = x[i]! + lead * rate[i]!;
    this.#stageFlux = this.#flux;
    const midRate = this.#stage(lead, this.tempC + lead * this.#tempRate, this.#midX, this.#midRate);
    this.#midFlux = this.#stageFlux;
    for (let i = 0; i < cells; i++) known[i] = x[i]! + W * dt * (rate[i]! + mid[i]!);
    const newRate = this.#stage(
      lead,
      this.tempC + W * dt * (this.#tempRate + midRate),
      this.#newX,
      this.#newRate,
    );
    this.#newTempRate = newRate;
    const surface =
      this.skinS === Infinity
        ? E1 * this.#grid.ofSkin(this.#rate) +
          E2 * this.#grid.ofSkin(this.#midRate) +
          E3 * this.#grid.ofSkin(this.#newRate)
        : (E1 * this.#flux + E2 * this.#midFlux + E3 * this.#stageFlux) /
          (this.#film.solidsKgM3 * this.#film.thicknessM);
    const base =
      E1 * this.#grid.atBase(this.#rate) +
      E2 * this.#grid.atBase(this.#midRate) +
      E3 * this.#grid.atBase(this.#newRate);
    const temp = E1 * this.#tempRate + E2 * midRate + E3 * newRate;
    const worstX = Math.max(Math.abs(surface), Math.abs(base)) / this.#toleranceX;
    return (dt * Math.max(worstX, Math.abs(temp) / TOLERANCE_K)) / this.#tolerance;
  }

  /** Solves x = known + lead · rate(x), the same for temperature; returns the rate of temperature. */
  #stage(lead: number, knownC: number, x: Float64Array, rate: Float64Array): number {
    const exchange = this.#exchange!;
    const { solidsKgM3, heatJM2K } = this.#film;
    const top = this.#grid.cells - 1;
    const known = this.#known;
    const water = this.#water;
    const share = this.#share;
    const link = this.#link;
    const width = this.#grid.widthM;
    const warm = (lead * exchange.heatWm2K) / heatJM2K;
    const settledC = (knownC + warm * exchange.airC) / (1 + warm);
    const chill = (lead * exchange.latentJKg) / heatJM2K / (1 + warm);
    let flux = this.#stageFlux;
    let tempC = settledC - chill * flux;
    const perLead = 1 / lead;
    let drop = 0;
    let topX = 0;
    for (let tries = 0; tries < 4; tries++) {
      if (lead !== this.#matrixLead || Math.abs(tempC - this.#matrixC) >= GUESS_K)
        this.#eliminate(lead, tempC);
      // Of this cell and what hangs on it from below, without taking like from like, so that in a long step no water is
      // lost to rounding.
      let sum = width[0]! * known[0]!;
      water[0] = sum;
      for (let i = 1; i <= top; i++) {
        sum = width[i]! * known[i]! + link[i - 1]! * sum;
        water[i] = sum;
      }
      topX = sum * this.#topShare;
      drop = (lead * this.#topShare) / solidsKgM3;
      const half = width[top]! / (2 * solidsKgM3 * this.#matrixM2S);
      flux = solveFlux(exchange, topX, drop + half, settledC, chill, flux);
      tempC = settledC - chill * flux;
      if (Math.abs(tempC - this.#matrixC) < GUESS_K) break;
    }
    let above = topX - drop * flux;
    x[top] = above;
    rate[top] = (above - known[top]!) * perLead;
    for (let i = top - 1; i >= 0; i--) {
      above = water[i]! * share[i]! + link[i]! * above;
      x[i] = above;
      rate[i] = (above - known[i]!) * perLead;
    }
    this.#stageFlux = flux;
    this.#stageTempC = tempC;
    return (tempC - knownC) * perLead;
  }

  #eliminate(lead: number, tempC: number): void {
    const top = this.#grid.cells - 1;
    const width = this.#grid.widthM;
    const near = this.#grid.nearPerM;
    const share = this.#share;
    const links = this.#link;
    const diffusivity = diffusivityM2S(tempC);
    const spread = lead * diffusivity;
    let mass = width[0]!;
    for (let i = 0; i < top; i++) {
      const above = spread * near[i]!;
      const part = 1 / (mass + above);
      const link = above * part;
      share[i] = part;
      links[i] = link;
      mass = width[i + 1]! + mass * link;
    }
    this.#topShare = 1 / mass;
    this.#matrixLead = lead;
    this.#matrixC = tempC;
    this.#matrixM2S = diffusivity;
  }

  #take(dt: number): void {
    const { skinX, dryThroughX } = this.#film;
    this.lostKgM2 += dt * (W * (this.#flux + this.#midFlux) + D * this.#stageFlux);
    if (this.skinS === Infinity) {
      const to = this.#grid.ofSkin(this.#newX);
      const slope = dt * this.#grid.ofSkin(this.#newRate);
      if (to <= skinX)
        this.skinS =
          this.s +
          dt * crossing(this.#grid.ofSkin(this.#x), to, dt * this.#grid.ofSkin(this.#rate), slope, skinX);
    }
    if (this.dryThroughS === Infinity) {
      const to = this.#grid.atBase(this.#newX);
      const slope = dt * this.#grid.atBase(this.#newRate);
      if (to <= dryThroughX)
        this.dryThroughS =
          this.s +
          dt *
            crossing(this.#grid.atBase(this.#x), to, dt * this.#grid.atBase(this.#rate), slope, dryThroughX);
    }
    const oldX = this.#x;
    const oldRate = this.#rate;
    this.#x = this.#newX;
    this.#rate = this.#newRate;
    this.#newX = oldX;
    this.#newRate = oldRate;
    this.tempC = this.#stageTempC;
    this.#tempRate = this.#newTempRate;
    this.#flux = this.#stageFlux;
  }
}
