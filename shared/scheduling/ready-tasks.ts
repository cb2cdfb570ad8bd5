/** In place of a place where there is none. */
export const NO_PLACE = 0x7fffffff;

/**
 * Ready tasks that wait for the same units, by their places in the priority list: where the first cannot begin, none of them can.
 * A bit a place, so that none is moved when another begins.
 */
export class ReadyTasks {
  /** The first place of those not passed over at this moment. */
  first = NO_PLACE;
  isBlocked = false;
  readonly #ready: Int32Array;
  /** Those that do not fit into what is left of their pool's hours. */
  readonly #parked: Int32Array;
  #firstParked = NO_PLACE;
  #firstPassed = NO_PLACE;

  constructor(places: number) {
    this.#ready = new Int32Array((places + 31) >> 5);
    this.#parked = new Int32Array(this.#ready.length);
  }

  clear(): void {
    this.#ready.fill(0);
    if (this.#firstParked !== NO_PLACE) this.#parked.fill(0);
    this.first = this.#firstParked = this.#firstPassed = NO_PLACE;
  }

  add(place: number): void {
    this.#ready[place >> 5]! |= 1 << (place & 31);
    if (place < this.first) this.first = place;
  }

  /** Takes out the first. */
  take(): void {
    const { first } = this;
    this.#ready[first >> 5]! &= ~(1 << (first & 31));
    this.first = this.#from(first + 1);
  }

  /** Leaves the first out until `lookAgain`. */
  passOver(): void {
    if (this.#firstPassed === NO_PLACE) this.#firstPassed = this.first;
    this.first = this.#from(this.first + 1);
  }

  lookAgain(): void {
    this.isBlocked = false;
    if (this.#firstPassed === NO_PLACE) return;
    this.first = Math.min(this.first, this.#firstPassed);
    this.#firstPassed = NO_PLACE;
  }

  /** Leaves the first out until `unpark`. */
  park(): void {
    const { first } = this;
    this.#parked[first >> 5]! |= 1 << (first & 31);
    if (first < this.#firstParked) this.#firstParked = first;
    this.take();
  }

  unpark(): void {
    if (this.#firstParked === NO_PLACE) return;
    for (let word = this.#firstParked >> 5; word < this.#parked.length; word++) {
      this.#ready[word]! |= this.#parked[word]!;
      this.#parked[word] = 0;
    }
    if (this.#firstParked < this.first) this.first = this.#firstParked;
    this.#firstParked = NO_PLACE;
  }

  /** The first place from this one on. */
  #from(place: number): number {
    const ready = this.#ready;
    let word = place >> 5;
    if (word >= ready.length) return NO_PLACE;
    let bits = ready[word]! & (-1 << (place & 31));
    while (bits === 0) {
      word += 1;
      if (word >= ready.length) return NO_PLACE;
      bits = ready[word]!;
    }
    return (word << 5) + 31 - Math.clz32(bits & -bits);
  }
}
