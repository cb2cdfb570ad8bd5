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

  /** How many tasks with a number below `bound` there are for which this holds. */
  countBelow(bound: number, holds: (task: number) => boolean, at = 0): number {
    if (at >= this.size) return 0;
    const task = this.#tasks[at]!;
    if (this.#keys[task]! >= bound) return 0;
    return (
      Number(holds(task)) +
      this.countBelow(bound, holds, 2 * at + 1) +
      this.countBelow(bound, holds, 2 * at + 2)
    );
  }

  #isBefore(one: number, other: number): boolean {
    const [a, b] = [this.#keys[one]!, this.#keys[other]!];
    return a < b || (a === b && one < other);
  }
}
