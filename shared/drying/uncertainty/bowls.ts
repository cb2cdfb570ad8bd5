import type { Joint } from "./joint-normal.ts";

/**
 * A bowl's own effect: it couples to few of the other parts and to no other bowl, so that each is eliminated by itself and
 * a hundred of them cost little.
 */
export class Bowl {
  readonly name: string;
  mean = 0;
  variance = 0;
  /** The parts of its films, how it couples to each, and its covariance with each. */
  readonly #rows: number[] = [];
  readonly #coupling: number[] = [];
  readonly #covariance: number[] = [];
  #precision = 0;
  #shift = 0;

  constructor(name: string) {
    this.name = name;
  }

  /** Its place for a part of one of its films. */
  placeOf(row: number): number {
    const known = this.#rows.indexOf(row);
    if (known >= 0) return known;
    this.#coupling.push(0);
    this.#covariance.push(0);
    return this.#rows.push(row) - 1;
  }

  covarianceAt(place: number): number {
    return this.#covariance[place]!;
  }

  /** As before any message, as likely to lie off by so much. */
  reset(variance: number): void {
    this.#precision = 1 / variance;
    this.#shift = 0;
    this.#coupling.fill(0);
  }

  /** A message to the sum of its effect and the parts at these of its places. */
  add(places: Int32Array, bys: Float64Array, precision: number, shift: number): void {
    this.#precision += precision;
    this.#shift += shift;
    for (let k = 0; k < places.length; k += 1) this.#coupling[places[k]!]! += bys[k]! * precision;
  }

  /** Takes it out of the other parts' precision and shift. */
  eliminate(precision: Float64Array, shift: Float64Array): void {
    const rows = this.#rows;
    const coupling = this.#coupling;
    for (let i = 0; i < rows.length; i += 1) {
      const by = coupling[i]! / this.#precision;
      const line = rows[i]! * shift.length;
      shift[rows[i]!]! -= by * this.#shift;
      for (let j = 0; j < rows.length; j += 1) precision[line + rows[j]!]! -= by * coupling[j]!;
    }
  }

  /** What is known of it, given the other parts. */
  update(others: Joint): void {
    const rows = this.#rows;
    const covariance = this.#covariance;
    const part = 1 / this.#precision;
    this.mean = this.#shift * part;
    this.variance = part;
    for (let i = 0; i < rows.length; i += 1) {
      covariance[i] = this.covarianceWith(rows[i]!, others);
      this.mean -= this.#coupling[i]! * part * others.mean[rows[i]!]!;
      this.variance -= this.#coupling[i]! * part * covariance[i]!;
    }
  }

  /** Its covariance with any part. */
  covarianceWith(row: number, { covariance, size }: Joint): number {
    const rows = this.#rows;
    let sum = 0;
    for (let k = 0; k < rows.length; k += 1) sum += covariance[row * size + rows[k]!]! * this.#coupling[k]!;
    return 0 - sum / this.#precision;
  }
}
