import { ACTIVATION_J_MOL, DIFFUSIVITY_AT_K, DIFFUSIVITY_M2_S, GAS_J_MOL_K, ZERO_C_K } from "./constants.ts";
import type { FilmGrid } from "./grid.ts";

/** Diffusivity of water in icing, m²/s. */
export function diffusivityM2S(tempC: number): number {
  const k = tempC + ZERO_C_K;
  return DIFFUSIVITY_M2_S * Math.exp((ACTIVATION_J_MOL / GAS_J_MOL_K) * (1 / DIFFUSIVITY_AT_K - 1 / k));
}

/**
 * One implicit step of diffusion on a grid, x − lead · rate(x) = known, for one `lead` and the diffusivity of one temperature:
 * a three-banded matrix, eliminated from base to surface. Nothing is allocated while solving.
 */
export class DiffusionMatrix {
  /** What it was eliminated for; a lead of 0 before that. */
  lead = 0;
  tempC = 0;
  diffusivityM2S = 0;
  /** The surface cell's share of what `topOf` sums up. */
  topShare = 0;
  readonly #grid: FilmGrid;
  readonly #share: Float64Array;
  readonly #link: Float64Array;
  readonly #water: Float64Array;

  constructor(grid: FilmGrid) {
    this.#grid = grid;
    const row = (): Float64Array => new Float64Array(grid.cells);
    [this.#share, this.#link, this.#water] = [row(), row(), row()];
  }

  /** The grid changed. */
  forget(): void {
    this.lead = 0;
  }

  eliminate(lead: number, tempC: number): void {
    const { widthM, nearPerM, cells } = this.#grid;
    const share = this.#share;
    const links = this.#link;
    const diffusivity = diffusivityM2S(tempC);
    const spread = lead * diffusivity;
    let mass = widthM[0]!;
    for (let i = 0; i < cells - 1; i++) {
      const above = spread * nearPerM[i]!;
      const part = 1 / (mass + above);
      const link = above * part;
      share[i] = part;
      links[i] = link;
      mass = widthM[i + 1]! + mass * link;
    }
    this.topShare = 1 / mass;
    this.lead = lead;
    this.tempC = tempC;
    this.diffusivityM2S = diffusivity;
  }

  /** The surface cell, were nothing to leave it. Sums like with like, so that in a long step no water is lost to rounding. */
  topOf(known: Float64Array): number {
    const { widthM, cells } = this.#grid;
    const water = this.#water;
    const link = this.#link;
    let sum = widthM[0]! * known[0]!;
    water[0] = sum;
    for (let i = 1; i < cells; i++) {
      sum = widthM[i]! * known[i]! + link[i - 1]! * sum;
      water[i] = sum;
    }
    return sum * this.topShare;
  }

  /** All cells and their rates, from the surface cell down; `topOf` comes before. */
  solve(topX: number, known: Float64Array, x: Float64Array, rate: Float64Array): void {
    const water = this.#water;
    const share = this.#share;
    const link = this.#link;
    const perLead = 1 / this.lead;
    const top = this.#grid.cells - 1;
    let above = topX;
    x[top] = above;
    rate[top] = (above - known[top]!) * perLead;
    for (let i = top - 1; i >= 0; i--) {
      above = water[i]! * share[i]! + link[i]! * above;
      x[i] = above;
      rate[i] = (above - known[i]!) * perLead;
    }
  }
}
