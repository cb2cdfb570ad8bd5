import type { JointNormal } from "./joint-normal.ts";
import type { BowlPosterior, Parts } from "./parts.ts";

/** A bowl's own effect given the other parts, unnamed. */
export type BowlEffect = Omit<BowlPosterior, "name">;

/**
 * The bowls' own effects: each couples to few of the other parts and to no other bowl, so that each is eliminated by itself and
 * a hundred of them cost little.
 */
export class Bowls {
  readonly names: readonly string[];
  readonly #precision: Float64Array;
  readonly #shift: Float64Array;
  /** Of each bowl, how it couples to the other parts, and the rows in which that is not nought. */
  readonly #coupling: readonly Float64Array[];
  readonly #rows: readonly (readonly number[])[];

  /** `partsOf`: the parts of the films out of each bowl. */
  constructor(names: readonly string[], partsOf: (bowl: number) => readonly Parts[], rows: number) {
    this.names = names;
    this.#precision = new Float64Array(names.length);
    this.#shift = new Float64Array(names.length);
    this.#coupling = names.map(() => new Float64Array(rows));
    this.#rows = names.map((_, bowl) =>
      [...new Set(partsOf(bowl).flatMap((parts) => parts.map(([row]) => row)))].toSorted((a, b) => a - b),
    );
  }

  /** As before any message, each as likely to lie off by `sd`. */
  reset(sd: number): void {
    this.#precision.fill(1 / sd ** 2);
    this.#shift.fill(0);
    for (const coupling of this.#coupling) coupling.fill(0);
  }

  /** A message to the sum of a bowl's effect and these parts. */
  add(bowl: number, parts: Parts, precision: number, shift: number): void {
    this.#precision[bowl]! += precision;
    this.#shift[bowl]! += shift;
    for (const [row, by] of parts) this.#coupling[bowl]![row]! += by * precision;
  }

  /** Takes every bowl out of the other parts' precision and shift. */
  eliminate(precision: readonly number[][], shift: number[]): void {
    for (const [bowl, rows] of this.#rows.entries()) {
      const coupling = this.#coupling[bowl]!;
      const part = 1 / this.#precision[bowl]!;
      for (const row of rows) {
        const by = coupling[row]! * part;
        shift[row]! -= by * this.#shift[bowl]!;
        for (const column of rows) precision[row]![column]! -= by * coupling[column]!;
      }
    }
  }

  /** What is known of each bowl, given the other parts. */
  effects({ mean, covariance }: JointNormal): BowlEffect[] {
    const every = mean.map((_, row) => row);
    return this.names.map((_, bowl) => this.#effect(bowl, mean, covariance, every));
  }

  /** The same as far as a bowl's own films go by it: its covariance with other parts than theirs is left at nought. */
  ownEffects({ mean, covariance }: JointNormal): BowlEffect[] {
    return this.#rows.map((rows, bowl) => this.#effect(bowl, mean, covariance, rows));
  }

  #effect(
    bowl: number,
    means: readonly number[],
    covariances: readonly (readonly number[])[],
    wanted: readonly number[],
  ): BowlEffect {
    const coupling = this.#coupling[bowl]!;
    const rows = this.#rows[bowl]!;
    const part = 1 / this.#precision[bowl]!;
    const covariance = means.map(() => 0);
    for (const row of wanted) {
      const line = covariances[row]!;
      let sum = 0;
      for (const column of rows) sum += line[column]! * coupling[column]!;
      covariance[row] = 0 - sum * part;
    }
    let mean = this.#shift[bowl]! * part;
    let variance = part;
    for (const row of rows) {
      mean -= coupling[row]! * part * means[row]!;
      variance -= coupling[row]! * part * covariance[row]!;
    }
    return { mean, variance, covariance };
  }
}
