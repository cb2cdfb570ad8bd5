/** A heap of tasks by a number each, the smallest on top; of equals the lower task. Holds each task at most once. */
export class TaskHeap {
  size = 0;
  readonly #tasks: Int32Array;
  readonly #keys: Float64Array;

  /** `keys`: a number for each task, which must not change while it is in the heap. */
  constructor(keys: Float64Array) {
    this.#tasks = new Int32Array(keys.length);
    this.#keys = keys;
  }

  /** -1 in an empty heap. */
  get top(): number {
    return this.size === 0 ? -1 : this.#tasks[0]!;
  }

  clear(): void {
    this.size = 0;
  }

  push(task: number): void {
    const tasks = this.#tasks;
    let at = this.size++;
    while (at > 0) {
      const above = (at - 1) >> 1;
      if (!this.#isBefore(task, tasks[above]!)) break;
      tasks[at] = tasks[above]!;
      at = above;
    }
    tasks[at] = task;
  }

  pop(): number {
    const tasks = this.#tasks;
    const top = tasks[0]!;
    const last = tasks[--this.size]!;
    let at = 0;
    for (;;) {
      let below = 2 * at + 1;
      if (below >= this.size) break;
      if (below + 1 < this.size && this.#isBefore(tasks[below + 1]!, tasks[below]!)) below++;
      if (!this.#isBefore(tasks[below]!, last)) break;
      tasks[at] = tasks[below]!;
      at = below;
    }
    tasks[at] = last;
    return top;
  }

  /** The task at a spot of the heap. */
  at(spot: number): number {
    return this.#tasks[spot]!;
  }

  /** Spots of tasks with a number below `bound`, one after another from the first; less than nought after the last. */
  firstBelow(bound: number): number {
    return this.#isBelow(bound, 0) ? 0 : -1;
  }

  nextBelow(bound: number, spot: number): number {
    if (this.#isBelow(bound, 2 * spot + 1)) return 2 * spot + 1;
    // Its right-hand side, or that of the nearest one above it that was reached by its left.
    if (this.#isBelow(bound, 2 * spot + 2)) return 2 * spot + 2;
    for (let at = spot; at > 0; at = (at - 1) >> 1)
      if (at % 2 === 1 && this.#isBelow(bound, at + 1)) return at + 1;
    return -1;
  }

  #isBelow(bound: number, spot: number): boolean {
    return spot < this.size && this.#keys[this.#tasks[spot]!]! < bound;
  }

  #isBefore(one: number, other: number): boolean {
    const a = this.#keys[one]!;
    const b = this.#keys[other]!;
    return a < b || (a === b && one < other);
  }
}
