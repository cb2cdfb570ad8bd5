import { TaskHeap } from "./task-heap.ts";

/** When a pool works: spells in minutes from the plan's start, ascending and apart; the last may end at Infinity. */
export interface WorkHours {
  fromMin: readonly number[];
  toMin: readonly number[];
}

/** Always at work. */
export const ALWAYS: WorkHours = { fromMin: [0], toMin: [Infinity] };

/** Units that can stand in for one another: hands, tools of a kind, trays that a chamber holds. */
export interface Pool {
  units: number;
  hours: WorkHours;
}

/** One piece of work: minutes of one unit of a pool, and of one of a second pool where it needs that as well. */
export interface Task {
  pool: number;
  alsoPool?: number;
  durationMin: number;
  /** Not before this; nought when left out. */
  fromMin?: number;
  /** What must be done before it, and how long it then waits: drying goes on while the kitchen is closed. */
  after: readonly { task: number; waitMin: number }[];
  /** The unit that is to do it, such as the person a tray was given to. */
  unit?: number;
  /** What a unit works with; one that had something else before takes `changeMin` longer. */
  icing?: number;
  /** May be broken off when the pool stops work, and goes on when it starts again. */
  isDivisible?: boolean;
}

export interface Work {
  tasks: readonly Task[];
  pools: readonly Pool[];
  /** Minutes to change from one icing to another. */
  changeMin: number;
}

/** How a priority list is to be run. */
export interface Priorities {
  /** One number a task: the lowest goes first. */
  rank: ArrayLike<number>;
  /**
   * Whether a unit stays free for a task of a lower rank that will be ready before the task at hand would be done (Giffler &
   * Thompson 1960, from memory). Without, no unit is ever idle while a task is ready.
   */
  isPatient?: boolean;
}

/**
 * Runs a priority list over the work: at each moment at which a unit is free, the ready task of the lowest rank begins
 * (parallel schedule generation, Kolisch 1996, from memory). Holds its own scratch, so that hundreds of draws of the same
 * work allocate nothing; the results are overwritten by the next run.
 */
export class Scheduler {
  readonly startMin: Float64Array;
  readonly endMin: Float64Array;
  /** Unit of the task's pool. */
  readonly unit: Int32Array;
  readonly #work: Work;
  readonly #rank: Float64Array;
  readonly #readyMin: Float64Array;
  readonly #open: Int32Array;
  readonly #firstNext: Int32Array;
  readonly #next: Int32Array;
  readonly #nextWait: Int32Array;
  readonly #coming: TaskHeap;
  /** Ready tasks by pool. */
  readonly #ready: readonly TaskHeap[];
  readonly #freeMin: readonly Float64Array[];
  readonly #hasIcing: readonly Int32Array[];
  readonly #spell: Int32Array;
  readonly #shortestMin: Float64Array;
  readonly #aside: Int32Array;

  constructor(work: Work) {
    const { tasks, pools } = work;
    const count = tasks.length;
    this.#work = work;
    [this.startMin, this.endMin] = [new Float64Array(count), new Float64Array(count)];
    this.unit = new Int32Array(count);
    this.#rank = new Float64Array(count);
    this.#readyMin = new Float64Array(count);
    this.#open = new Int32Array(count);
    this.#coming = new TaskHeap(this.#readyMin);
    this.#ready = pools.map(() => new TaskHeap(this.#rank));
    this.#freeMin = pools.map(({ units }) => new Float64Array(units));
    this.#hasIcing = pools.map(({ units }) => new Int32Array(units));
    this.#spell = new Int32Array(pools.length);
    this.#shortestMin = new Float64Array(pools.length);
    this.#aside = new Int32Array(count);
    // What follows each task, side by side, with the place of its wait in the list of all waits.
    const links = tasks.flatMap(({ after }, task) =>
      after.map((before) => ({ from: before.task, to: task })),
    );
    this.#firstNext = new Int32Array(count + 1);
    for (const { from } of links) this.#firstNext[from + 1]! += 1;
    for (let task = 0; task < count; task++) this.#firstNext[task + 1]! += this.#firstNext[task]!;
    this.#next = new Int32Array(links.length);
    this.#nextWait = new Int32Array(links.length);
    const filled = this.#firstNext.slice();
    for (const [wait, { from, to }] of links.entries()) {
      const at = filled[from]!++;
      this.#next[at] = to;
      this.#nextWait[at] = wait;
    }
  }

  /** The waits of all tasks in order, task by task, as `run` takes them. */
  static waitsOf({ tasks }: Work): Float64Array {
    return Float64Array.from(tasks.flatMap(({ after }) => after.map(({ waitMin }) => waitMin)));
  }

  /**
   * Fills in `startMin`, `endMin` and `unit`. Durations and waits are the work's own unless others were drawn. A task that can
   * never begin ends at Infinity.
   */
  run(
    { rank, isPatient = false }: Priorities,
    durationsMin?: ArrayLike<number>,
    waitsMin?: ArrayLike<number>,
  ): void {
    const { tasks, pools } = this.#work;
    const waits = waitsMin ?? Scheduler.waitsOf(this.#work);
    const minutes = (task: number): number => durationsMin?.[task] ?? tasks[task]!.durationMin;
    this.#reset(rank, minutes);
    let now = 0;
    let left = tasks.length;
    while (left > 0) {
      while (this.#coming.size > 0 && this.#readyMin[this.#coming.top]! <= now) {
        const task = this.#coming.pop();
        this.#ready[tasks[task]!.pool]!.push(task);
      }
      let wakeMin = this.#coming.size > 0 ? this.#readyMin[this.#coming.top]! : Infinity;
      for (let pool = 0; pool < pools.length; pool++) {
        const ready = this.#ready[pool]!;
        if (ready.size === 0) continue;
        const { fromMin, toMin } = pools[pool]!.hours;
        while (this.#spell[pool]! < toMin.length && toMin[this.#spell[pool]!]! <= now)
          this.#spell[pool]! += 1;
        const spell = this.#spell[pool]!;
        if (spell >= toMin.length) continue;
        if (fromMin[spell]! > now) {
          wakeMin = Math.min(wakeMin, fromMin[spell]!);
          continue;
        }
        let aside = 0;
        while (ready.size > 0 && now + this.#shortestMin[pool]! <= toMin[spell]!) {
          const task = ready.top;
          const unit = this.#unitFor(task, now);
          if (unit === NONE_FREE) break;
          ready.pop();
          const endMin = unit < 0 ? Infinity : this.#endOf(task, unit, minutes(task), now, spell);
          if (endMin === Infinity) {
            this.#aside[aside++] = task;
            continue;
          }
          if (isPatient && this.#isKept(task, now, endMin)) {
            this.#aside[aside++] = task;
            continue;
          }
          this.#begin(task, unit, now, endMin);
          left -= 1;
          for (let k = this.#firstNext[task]!; k < this.#firstNext[task + 1]!; k++) {
            const next = this.#next[k]!;
            const readyMin = endMin + waits[this.#nextWait[k]!]!;
            if (readyMin > this.#readyMin[next]!) this.#readyMin[next] = readyMin;
            this.#open[next]! -= 1;
            if (this.#open[next] === 0) {
              this.#coming.push(next);
              wakeMin = Math.min(wakeMin, this.#readyMin[next]!);
            }
          }
        }
        while (aside > 0) ready.push(this.#aside[--aside]!);
        if (ready.size > 0) wakeMin = Math.min(wakeMin, fromMin[spell + 1] ?? Infinity, this.#nextFree(now));
      }
      if (wakeMin === Infinity) return;
      now = Math.max(now, wakeMin);
    }
  }

  #reset(rank: ArrayLike<number>, minutes: (task: number) => number): void {
    const { tasks, pools } = this.#work;
    this.#coming.clear();
    this.endMin.fill(Infinity);
    this.startMin.fill(Infinity);
    this.#spell.fill(0);
    this.#shortestMin.fill(Infinity);
    for (let pool = 0; pool < pools.length; pool++) {
      this.#ready[pool]!.clear();
      this.#freeMin[pool]!.fill(0);
      this.#hasIcing[pool]!.fill(-1);
    }
    for (let task = 0; task < tasks.length; task++) {
      const { after, fromMin = 0, pool, isDivisible } = tasks[task]!;
      this.#rank[task] = rank[task]!;
      this.#readyMin[task] = fromMin;
      this.#open[task] = after.length;
      const leastMin = isDivisible === true ? 0 : minutes(task);
      if (leastMin < this.#shortestMin[pool]!) this.#shortestMin[pool] = leastMin;
      if (after.length === 0) this.#coming.push(task);
    }
  }

  /** The unit that would do it now: its own, else one with its icing in hand, else any; none, or not its own. */
  #unitFor(task: number, now: number): number {
    const { pool, unit, icing, alsoPool } = this.#work.tasks[task]!;
    const free = this.#freeMin[pool]!;
    let best = NONE_FREE;
    for (let k = 0; k < free.length; k++) {
      if (free[k]! > now) continue;
      if (best === NONE_FREE) best = NOT_NOW;
      if (unit !== undefined && unit !== k) continue;
      if (best === NOT_NOW) best = k;
      if (icing === undefined || this.#hasIcing[pool]![k] === icing) {
        best = k;
        break;
      }
    }
    if (best >= 0 && alsoPool !== undefined && this.#freeUnit(alsoPool, now) < 0) return NOT_NOW;
    return best;
  }

  /** Whether all units that are free now will be wanted, before this task is done, by others that go before it. */
  #isKept(task: number, now: number, endMin: number): boolean {
    const { pool } = this.#work.tasks[task]!;
    const before = this.#coming.countBelow(
      endMin,
      (other) => this.#work.tasks[other]!.pool === pool && this.#rank[other]! < this.#rank[task]!,
    );
    if (before === 0) return false;
    const free = this.#freeMin[pool]!.reduce((count, freeMin) => count + Number(freeMin <= now), 0);
    return before >= free;
  }

  #freeUnit(pool: number, now: number): number {
    return this.#freeMin[pool]!.findIndex((freeMin) => freeMin <= now);
  }

  /** When it would end; Infinity where it is not done before the pool stops work, and may not be broken off. */
  #endOf(task: number, unit: number, minutes: number, now: number, spell: number): number {
    const { pool, icing, isDivisible } = this.#work.tasks[task]!;
    const { fromMin, toMin } = this.#work.pools[pool]!.hours;
    const had = this.#hasIcing[pool]![unit]!;
    let left = minutes + (icing === undefined || had < 0 || had === icing ? 0 : this.#work.changeMin);
    if (now + left <= toMin[spell]!) return now + left;
    if (isDivisible !== true) return Infinity;
    left -= toMin[spell]! - now;
    for (let k = spell + 1; k < toMin.length; k++) {
      if (fromMin[k]! + left <= toMin[k]!) return fromMin[k]! + left;
      left -= toMin[k]! - fromMin[k]!;
    }
    return Infinity;
  }

  #begin(task: number, unit: number, now: number, endMin: number): void {
    const { pool, icing, alsoPool } = this.#work.tasks[task]!;
    this.startMin[task] = now;
    this.endMin[task] = endMin;
    this.unit[task] = unit;
    this.#freeMin[pool]![unit] = endMin;
    if (icing !== undefined) this.#hasIcing[pool]![unit] = icing;
    if (alsoPool !== undefined) this.#freeMin[alsoPool]![this.#freeUnit(alsoPool, now)] = endMin;
  }

  #nextFree(now: number): number {
    let soonest = Infinity;
    for (const free of this.#freeMin)
      for (const freeMin of free) if (freeMin > now && freeMin < soonest) soonest = freeMin;
    return soonest;
  }
}

/** No unit of the pool is free. */
const NONE_FREE = -2;
/** Some are, but not the one it is to be done by, or not the tool that it needs as well. */
const NOT_NOW = -1;
