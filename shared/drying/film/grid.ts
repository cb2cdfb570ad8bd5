import { SKIN_DEPTH_M } from "./constants.ts";

/** Cells of the outer layer that makes the skin, from the surface down; beneath, each cell is wider by one ratio. */
const SKIN_WIDTHS_M = [8e-6, 12e-6, 17e-6, 23e-6];
const SKIN_CELLS = SKIN_WIDTHS_M.length;

/** How a film is cut into cells: 0 lies on the biscuit, the last at the surface, where they are narrow. */
export class FilmGrid {
  readonly cells: number;
  thicknessM = 0;
  readonly widthM: Float64Array;
  /** One over the distance between the middles of a cell and the next, 1/m. */
  readonly nearPerM: Float64Array;
  /** Share of the first difference that leads from the middle of the first cell to the base. */
  #lean = 0;

  constructor(cells: number) {
    this.cells = cells;
    this.widthM = new Float64Array(cells);
    this.nearPerM = new Float64Array(cells);
  }

  cut(thicknessM: number): void {
    if (thicknessM === this.thicknessM) return;
    this.thicknessM = thicknessM;
    const under = this.cells - SKIN_CELLS;
    const rest = thicknessM - SKIN_DEPTH_M;
    const last = SKIN_WIDTHS_M[SKIN_CELLS - 1]!;
    const ratio = last * under < rest ? growth(rest / last, under) : undefined;
    const { widthM, nearPerM } = this;
    for (let i = 0; i < SKIN_CELLS; i++) widthM[this.cells - 1 - i] = SKIN_WIDTHS_M[i]!;
    for (let i = 0; i < under; i++)
      widthM[under - 1 - i] = ratio === undefined ? rest / under : last * ratio ** (i + 1);
    for (let i = 0; i < this.cells - 1; i++) nearPerM[i] = 2 / (widthM[i]! + widthM[i + 1]!);
    const first = widthM[0]!;
    const secondMean = ((first + widthM[1]!) ** 3 - first ** 3) / (3 * widthM[1]!);
    this.#lean = (first * first) / 3 / (secondMean - (first * first) / 3);
  }

  copy(other: FilmGrid): void {
    this.thicknessM = other.thicknessM;
    this.widthM.set(other.widthM);
    this.nearPerM.set(other.nearPerM);
    this.#lean = other.#lean;
  }

  /** Value at the base by the parabola, level there, that has the means of the first two cells. */
  atBase(row: Float64Array): number {
    return row[0]! - this.#lean * (row[1]! - row[0]!);
  }

  /** Mean over the skin's depth. */
  ofSkin(row: Float64Array): number {
    let sum = 0;
    for (let i = this.cells - SKIN_CELLS; i < this.cells; i++) sum += this.widthM[i]! * row[i]!;
    return sum / SKIN_DEPTH_M;
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
