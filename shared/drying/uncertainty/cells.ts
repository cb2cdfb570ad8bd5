import type { Bowl } from "./bowls.ts";
import type { Joint, Moments } from "./joint-normal.ts";
import type { Site } from "./messages.ts";
import type { Parts } from "./parts.ts";

/** Observations of which the same is expected: they tell of the same sum of parts. */
export class Cell {
  readonly parts: Parts;
  readonly bowl: Bowl | undefined;
  readonly sites: Site[] = [];
  readonly #rows: Int32Array;
  readonly #bys: Float64Array;
  /** Its bowl's places for those. */
  readonly #places: Int32Array;

  constructor(parts: Parts, bowl: Bowl | undefined) {
    this.parts = parts;
    this.bowl = bowl;
    this.#rows = Int32Array.from(parts, ([row]) => row);
    this.#bys = Float64Array.from(parts, ([, by]) => by);
    this.#places = this.#rows.map((row) => bowl?.placeOf(row) ?? -1);
  }

  /** What is expected of its films. */
  expected({ mean, covariance, size }: Joint): Moments {
    const rows = this.#rows;
    const bys = this.#bys;
    let sum = 0;
    let variance = 0;
    for (let i = 0; i < rows.length; i += 1) {
      const line = rows[i]! * size;
      sum += bys[i]! * mean[rows[i]!]!;
      for (let j = 0; j < rows.length; j += 1) variance += bys[i]! * bys[j]! * covariance[line + rows[j]!]!;
    }
    const { bowl } = this;
    if (bowl !== undefined) {
      sum += bowl.mean;
      variance += bowl.variance;
      for (let i = 0; i < rows.length; i += 1) variance += 2 * bys[i]! * bowl.covarianceAt(this.#places[i]!);
    }
    return { mean: sum, variance };
  }

  /** Adds its messages to the parts' precision and shift, and to its bowl's. */
  tell(precision: Float64Array, shift: Float64Array): void {
    let ownPrecision = 0;
    let ownShift = 0;
    for (const site of this.sites) {
      ownPrecision += site.weight * site.precision;
      ownShift += site.weight * site.shift;
    }
    const rows = this.#rows;
    const bys = this.#bys;
    for (let i = 0; i < rows.length; i += 1) {
      const line = rows[i]! * shift.length;
      shift[rows[i]!]! += bys[i]! * ownShift;
      for (let j = 0; j < rows.length; j += 1)
        precision[line + rows[j]!]! += bys[i]! * bys[j]! * ownPrecision;
    }
    this.bowl?.add(this.#places, bys, ownPrecision, ownShift);
  }
}
