import { CRUST_DEPTH_M } from "./constants.ts";

/** Width of the outermost cell, m. */
const OUTERMOST_M = 8e-6;

/** How a film is cut into cells: 0 lies on the biscuit, the last at the surface, where they are narrow. */
export class FilmGrid {
  readonly cells: number;
  thicknessM = 0;
  readonly widthM: Float64Array;
  /** One over the distance between the middles of a cell and the next, 1/m. */
  readonly nearPerM: Float64Array;
  /** Cells beneath the crust, whose lower face lies between two cells. */
  readonly #under: number;
  #crustM = 0;
  /** Share of the first difference that leads from the middle of the first cell to the base. */
  #lean = 0;

  constructor(cells: number) {
    this.cells = cells;
    this.#under = Math.floor(cells / 2);
    this.widthM = new Float64Array(cells);
    this.nearPerM = new Float64Array(cells);
  }

  cut(thicknessM: number): void {
    if (thicknessM === this.thicknessM) return;
    this.thicknessM = thicknessM;
    this.#crustM = Math.min(CRUST_DEPTH_M, thicknessM / 2);
    const { widthM, nearPerM, cells } = this;
    const top = cells - 1;
    widthM[top] = Math.min(OUTERMOST_M, this.#crustM / (cells - this.#under));
    this.#widen(top - 1, this.#under, this.#crustM - widthM[top]);
    this.#widen(this.#under - 1, 0, thicknessM - this.#crustM);
    for (let i = 0; i < top; i++) nearPerM[i] = 2 / (widthM[i]! + widthM[i + 1]!);
    const first = widthM[0]!;
    const secondMean = ((first + widthM[1]!) ** 3 - first ** 3) / (3 * widthM[1]!);
    this.#lean = (first * first) / 3 / (secondMean - (first * first) / 3);
  }

  /** Cuts so much into the cells from one down to another, each wider by one ratio than the one above; evenly where they would narrow. */
  #widen(from: number, to: number, restM: number): void {
    const above = this.widthM[from + 1]!;
    const count = from - to + 1;
    const ratio = above * count < restM ? growth(restM / above, count) : undefined;
    for (let i = from; i >= to; i--)
      this.widthM[i] = ratio === undefined ? restM / count : above * ratio ** (from - i + 1);
  }

  copy(other: FilmGrid): void {
    this.thicknessM = other.thicknessM;
    this.#crustM = other.#crustM;
    this.widthM.set(other.widthM);
    this.nearPerM.set(other.nearPerM);
    this.#lean = other.#lean;
  }

  /** Value at the base by the parabola, level there, that has the means of the first two cells. */
  atBase(row: Float64Array): number {
    return row[0]! - this.#lean * (row[1]! - row[0]!);
  }

  /** Mean over the crust. */
  ofCrust(row: Float64Array): number {
    let sum = 0;
    for (let i = this.#under; i < this.cells; i++) sum += this.widthM[i]! * row[i]!;
    return sum / this.#crustM;
  }

  mean(row: Float64Array): number {
    let sum = 0;
    for (let i = 0; i < this.cells; i++) sum += this.widthM[i]! * row[i]!;
    return sum / this.thicknessM;
  }
}

/** The ratio r, above 1, with r + r² + … + rⁿ = sum: Newton from above, where the sum is convex. */
function growth(sum: number, terms: number): number {
  let ratio = sum ** (1 / terms);
  for (let i = 0; i < 30; i++) {
    let value = 0;
    let slope = 0;
    for (let term = 0; term < terms; term++) {
      slope = value + 1 + ratio * slope;
      value = ratio * (value + 1);
    }
    const step = (value - sum) / slope;
    ratio -= step;
    if (step < 1e-12) break;
  }
  return ratio;
}
