/** Every so many sweeps an average goes on to where its last steps lead, at most so many steps further. */
const LEAP_EVERY = 4;
const LEAP_MOST = 8;

/**
 * An average learned as what is expected of each item given all else (expectation–maximisation). Each such step is nearly the
 * same share of the last, which tells where they lead (Aitken).
 */
export class Average {
  value: number;
  readonly #first: number;
  readonly #most: number;
  #sum = 0;
  #count = 0;
  #step = 0;
  #steps = 0;
  /** What the last leap set out from: one that did not help is not tried again. */
  #leapt = Infinity;

  constructor(first: number, most: number) {
    this.#first = first;
    this.#most = most;
    this.value = first;
  }

  add(value: number, weight: number): void {
    this.#sum += weight * value;
    this.#count += weight;
  }

  /** Goes by what was added since, as if `before` items had been as expected to begin with; returns how far it went. */
  learn(before: number): number {
    const was = this.value;
    const sum = this.#sum + before * this.#first;
    const count = this.#count + before;
    this.#sum = 0;
    this.#count = 0;
    if (before === Infinity) return 0;
    const next = Math.min(this.#most, sum / count);
    this.value = this.#ahead(next, next - was);
    return Math.abs(this.value - was);
  }

  #ahead(next: number, step: number): number {
    const shrinks = step / this.#step;
    this.#step = step;
    this.#steps += 1;
    const leaps = this.#steps % LEAP_EVERY === 0 && shrinks > 0 && shrinks < 1;
    if (!leaps || Math.abs(step) > this.#leapt / 2) return next;
    this.#leapt = Math.abs(step);
    const leap = step * Math.min(LEAP_MOST, shrinks / (1 - shrinks));
    return Math.min(this.#most, Math.max(next / 2, next + leap));
  }
}
