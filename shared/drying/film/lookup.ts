/** A function kept as its values at even steps, straight between them: for one that is asked for millions of times. */
export class Lookup {
  /** Slope where it was last looked up. */
  slope = 0;
  readonly #values: Float64Array;
  readonly #from: number;
  readonly #perStep: number;

  /** Of `f` from `from` to `to` in so many steps; beyond either end its outermost value holds, or nearly. */
  constructor(f: (x: number) => number, from: number, to: number, steps: number) {
    this.#from = from;
    this.#perStep = steps / (to - from);
    this.#values = Float64Array.from({ length: steps + 1 }, (_, i) => f(from + i / this.#perStep));
  }

  at(x: number): number {
    const values = this.#values;
    const place = Math.min(Math.max((x - this.#from) * this.#perStep, 0), values.length - 1.001);
    const low = Math.floor(place);
    const value = values[low]!;
    const rise = values[low + 1]! - value;
    this.slope = rise * this.#perStep;
    return value + rise * (place - low);
  }
}
