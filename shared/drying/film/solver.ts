import { DiffusionMatrix, diffusivityM2S } from "./diffusion.ts";
import { FilmGrid } from "./grid.ts";
import { crossing, solveFlux } from "./roots.ts";
import type { Exchange } from "./exchange.ts";
import { type FilmStart, NO_FILM } from "./film-start.ts";

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
/** A film takes some 50 steps; one in steam, which boils and takes water up by turns, is given up after so many. */
const MOST_STEPS = 3000;
/** A stage is solved again with the diffusivity of its own temperature if that was guessed this wrong, K. */
const GUESS_K = 0.1;
/** A first guess follows the last rate no further than this: right after a change of air that leads below all cold, K. */
const GUESS_MOST_K = 10;

/**
 * One film of icing followed in time. The coordinate is fixed to the solids: cell 0 lies on the biscuit, the last at
 * the surface. Heat has two layers, the icing and the biscuit, and a surface that holds none. Each stage is linear in X for a
 * given diffusivity, so one sweep from base to surface leaves one equation, in the flux off the surface. Holds its own scratch: nothing is allocated while stepping.
 */
export class FilmSolver {
  /** Time since `begin`, s. */
  s = 0;
  /** Mean temperature of the icing. */
  tempC = 0;
  /** Water gone off by the surface, kg/m²: summed apart from X, so that the two can be held against each other. */
  lostKgM2 = 0;
  /** When skin and base got there, s; Infinity until they do. */
  skinS = Infinity;
  dryThroughS = Infinity;
  /** Steps worked out, taken or not, over all films: the bench's measure of the work. */
  steps = 0;
  #stepsLeft = 0;

  readonly #grid: FilmGrid;
  readonly #tolerance: number;
  #toleranceX = TOLERANCE_X;
  #film: FilmStart = NO_FILM;
  #exchange: Exchange | undefined;
  #step = FIRST_STEP_S;
  #flux = 0;
  #tempRate = 0;
  #biscuitC = 0;
  #biscuitRate = 0;
  /** As of the last flux. */
  #surfaceC = 0;
  #x: Float64Array;
  #rate: Float64Array;
  #newX: Float64Array;
  #newRate: Float64Array;
  readonly #midX: Float64Array;
  readonly #midRate: Float64Array;
  readonly #known: Float64Array;
  readonly #matrix: DiffusionMatrix;
  #stageTempC = 0;
  #stageBiscuitC = 0;
  #stageBiscuitRate = 0;
  #stageSurfaceC = 0;
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
    [this.#midX, this.#midRate, this.#known] = [row(), row(), row()];
    this.#matrix = new DiffusionMatrix(this.#grid);
  }

  /** Lays a film of one water content and temperature at time 0; `meet` comes next. */
  begin(film: FilmStart): void {
    this.#grid.cut(film.thicknessM);
    this.#matrix.forget();
    this.#film = film;
    this.#toleranceX = Math.min(TOLERANCE_X, TOLERANCE_SHARE * (film.x - film.skinX));
    this.#exchange = undefined;
    this.#x.fill(film.x);
    this.s = 0;
    this.#stepsLeft = MOST_STEPS;
    this.tempC = film.icingC;
    this.#biscuitC = film.biscuitC;
    this.#surfaceC = film.icingC;
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
    this.#matrix.forget();
    this.#step = other.#step;
    this.#flux = other.#flux;
    this.#tempRate = other.#tempRate;
    this.#biscuitC = other.#biscuitC;
    this.#biscuitRate = other.#biscuitRate;
    this.#surfaceC = other.#surfaceC;
    this.s = other.s;
    this.tempC = other.tempC;
    this.#stepsLeft = other.#stepsLeft;
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

  /** Whether air as this, were it to stay, would bring the film to the next of skin and dry-through. */
  canGetOn({ restsAtX }: Exchange): boolean {
    return restsAtX < (this.skinS === Infinity ? this.#film.skinX : this.#film.dryThroughX);
  }

  /** Works the rates of change out from the state itself. */
  #setRates(): void {
    const exchange = this.#exchange!;
    const { solidsKgM3, icingJM2K, biscuitJM2K, faceWm2K, betweenWm2K, underWm2K } = this.#film;
    const top = this.#grid.cells - 1;
    const diffusivity = diffusivityM2S(this.tempC);
    const half = this.#grid.widthM[top]! / (2 * solidsKgM3 * diffusivity);
    let surfaceC = this.#surfaceC;
    for (let tries = 0; tries < 4; tries++) {
      exchange.setSurfaceC(surfaceC);
      const both = faceWm2K + exchange.heatWm2K;
      const settledC = (faceWm2K * this.tempC + exchange.gainWm2) / both;
      const chill = exchange.latentJKg / both;
      this.#flux = solveFlux(exchange, this.#x[top]!, half, settledC, chill, this.#flux);
      const guessC = surfaceC;
      surfaceC = settledC - chill * this.#flux;
      if (Math.abs(surfaceC - guessC) < GUESS_K) break;
    }
    this.#surfaceC = surfaceC;
    const down = betweenWm2K * (this.tempC - this.#biscuitC);
    this.#tempRate = (faceWm2K * (surfaceC - this.tempC) - down) / icingJM2K;
    this.#biscuitRate = (down + underWm2K * (exchange.underC - this.#biscuitC)) / biscuitJM2K;
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
      if (this.#stepsLeft <= 0) {
        this.s = toS;
        return;
      }
      if (until === "skin" ? this.skinS < Infinity : until === "dryThrough" && this.dryThroughS < Infinity)
        return;
      const left = toS - this.s;
      const dt = this.#step >= left ? left : Math.min(this.#step, Math.max(left / 2, SHORTEST_STEP_S));
      const error = this.#try(dt);
      // In a step far too long its sums may leave all numbers.
      if (!(error <= 1) && dt > SHORTEST_STEP_S) {
        // Right after a change of air the error falls off with a lower power of the step than the third.
        this.#step = dt * (error > 1 ? Math.max(0.9 / error ** 0.65, 0.1) : 0.1);
        continue;
      }
      const change = 0.9 / Math.cbrt(Math.max(error, 1e-3));
      this.#take(dt);
      if (dt < ROUNDING_STEP_S) this.#setRates();
      this.s = dt === left ? toS : this.s + dt;
      this.#step = dt < this.#step ? Math.max(this.#step, dt * change) : dt * change;
    }
  }

  get surfaceC(): number {
    return this.#surfaceC;
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
    return this.#grid.ofCrust(this.#x);
  }
  get meanX(): number {
    return this.#grid.mean(this.#x);
  }

  /** Works out a step of `dt` without taking it; its error, in tolerances. */
  #try(dt: number): number {
    this.steps++;
    this.#stepsLeft--;
    const cells = this.#grid.cells;
    const lead = D * dt;
    const known = this.#known;
    const x = this.#x;
    const rate = this.#rate;
    const mid = this.#midRate;
    for (let i = 0; i < cells; i++) known[i] = x[i]! + lead * rate[i]!;
    this.#stageFlux = this.#flux;
    this.#stageTempC = this.tempC + Math.min(Math.max(lead * this.#tempRate, -GUESS_MOST_K), GUESS_MOST_K);
    this.#stageSurfaceC = this.#surfaceC;
    const midRate = this.#stage(
      lead,
      this.tempC + lead * this.#tempRate,
      this.#biscuitC + lead * this.#biscuitRate,
      this.#midX,
      this.#midRate,
    );
    const midBiscuitRate = this.#stageBiscuitRate;
    this.#midFlux = this.#stageFlux;
    for (let i = 0; i < cells; i++) known[i] = x[i]! + W * dt * (rate[i]! + mid[i]!);
    const newRate = this.#stage(
      lead,
      this.tempC + W * dt * (this.#tempRate + midRate),
      this.#biscuitC + W * dt * (this.#biscuitRate + midBiscuitRate),
      this.#newX,
      this.#newRate,
    );
    this.#newTempRate = newRate;
    const surface =
      this.skinS === Infinity
        ? E1 * this.#grid.ofCrust(this.#rate) +
          E2 * this.#grid.ofCrust(this.#midRate) +
          E3 * this.#grid.ofCrust(this.#newRate)
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

  /** Solves x = known + lead · rate(x), the same for both temperatures; returns the rate of the icing's. */
  #stage(lead: number, knownC: number, knownBiscuitC: number, x: Float64Array, rate: Float64Array): number {
    const exchange = this.#exchange!;
    const { solidsKgM3, icingJM2K, biscuitJM2K, faceWm2K, betweenWm2K, underWm2K } = this.#film;
    const top = this.#grid.cells - 1;
    const known = this.#known;
    const matrix = this.#matrix;
    const topM = this.#grid.widthM[top]!;
    let flux = this.#stageFlux;
    let tempC = this.#stageTempC;
    let surfaceC = this.#stageSurfaceC;
    // The biscuit's temperature is biscuitAt0 + biscuitPerK times the icing's.
    const toIcing = lead / icingJM2K;
    const toBiscuit = lead / biscuitJM2K;
    const biscuitLead = 1 + toBiscuit * (betweenWm2K + underWm2K);
    const biscuitAt0 = (knownBiscuitC + toBiscuit * underWm2K * exchange.underC) / biscuitLead;
    const biscuitPerK = (toBiscuit * betweenWm2K) / biscuitLead;
    const perLead = 1 / lead;
    let drop = 0;
    let topX = 0;
    for (let tries = 0; tries < 4; tries++) {
      if (lead !== matrix.lead || Math.abs(tempC - matrix.tempC) >= GUESS_K) matrix.eliminate(lead, tempC);
      const guessC = surfaceC;
      exchange.setSurfaceC(guessC);
      const { heatWm2K, gainWm2, latentJKg } = exchange;
      const both = faceWm2K + heatWm2K;
      const share = faceWm2K / both;
      const icingLead = 1 + toIcing * (share * heatWm2K + betweenWm2K * (1 - biscuitPerK));
      const icingAt0 = (knownC + toIcing * (share * gainWm2 + betweenWm2K * biscuitAt0)) / icingLead;
      const icingChill = (toIcing * share * latentJKg) / icingLead;
      const settledC = (faceWm2K * icingAt0 + gainWm2) / both;
      const chill = (faceWm2K * icingChill + latentJKg) / both;
      topX = matrix.topOf(known);
      drop = (lead * matrix.topShare) / solidsKgM3;
      const half = topM / (2 * solidsKgM3 * matrix.diffusivityM2S);
      flux = solveFlux(exchange, topX, drop + half, settledC, chill, flux);
      tempC = icingAt0 - icingChill * flux;
      surfaceC = settledC - chill * flux;
      if (Math.abs(tempC - matrix.tempC) < GUESS_K && Math.abs(surfaceC - guessC) < GUESS_K) break;
    }
    matrix.solve(topX - drop * flux, known, x, rate);
    this.#stageFlux = flux;
    this.#stageTempC = tempC;
    this.#stageSurfaceC = surfaceC;
    this.#stageBiscuitC = biscuitAt0 + biscuitPerK * tempC;
    this.#stageBiscuitRate = (this.#stageBiscuitC - knownBiscuitC) * perLead;
    return (tempC - knownC) * perLead;
  }

  #take(dt: number): void {
    const { skinX, dryThroughX } = this.#film;
    const { restsAtX } = this.#exchange!;
    this.lostKgM2 += dt * (W * (this.#flux + this.#midFlux) + D * this.#stageFlux);
    // Warm icing in damp air dips under a threshold before the air wets it again: that is no skin.
    if (this.skinS === Infinity && restsAtX < skinX) {
      const to = this.#grid.ofCrust(this.#newX);
      const slope = dt * this.#grid.ofCrust(this.#newRate);
      if (to <= skinX)
        this.skinS =
          this.s +
          dt * crossing(this.#grid.ofCrust(this.#x), to, dt * this.#grid.ofCrust(this.#rate), slope, skinX);
    }
    if (this.dryThroughS === Infinity && restsAtX < dryThroughX) {
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
    this.#biscuitC = this.#stageBiscuitC;
    this.#biscuitRate = this.#stageBiscuitRate;
    this.#surfaceC = this.#stageSurfaceC;
    this.#flux = this.#stageFlux;
  }
}
