import { TaskHeap } from "./task-heap.ts";
import { type Needs, needsOf } from "./needs.ts";
import { NO_ICING, NONE_FREE, NOT_NOW, PoolUnits, TOO_LONG } from "./units.ts";
import type { Drawn, Priorities, Work } from "./work.ts";

/** Ready tasks that wait for the same units: where the first cannot begin, none of them can. */
interface Kind {
  ready: TaskHeap;
  isBlocked: boolean;
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
  /** When what it waits for had come. */
  readonly readyMin: Float64Array;
  readonly #work: Work;
  readonly #needs: Needs;
  readonly #rank: Float64Array;
  readonly #open: Int32Array;
  readonly #firstNext: Int32Array;
  readonly #next: Int32Array;
  readonly #nextWait: Int32Array;
  readonly #coming: TaskHeap;
  /** Tasks of a pool that wait for the same units, and of each task which kind it is. */
  readonly #kindsOf: readonly Kind[][];
  readonly #kindOf: readonly Kind[];
  /** By pool: how many are ready, and those of them that do not fit into what is left of its hours. */
  readonly #waiting: Int32Array;
  readonly #parked: readonly number[][];
  readonly #units: readonly PoolUnits[];
  readonly #aside: Int32Array;

  constructor(work: Work) {
    const { tasks, pools } = work;
    const count = tasks.length;
    this.#work = work;
    this.#needs = needsOf(work);
    [this.startMin, this.endMin] = [new Float64Array(count), new Float64Array(count)];
    this.unit = new Int32Array(count);
    this.#rank = new Float64Array(count);
    this.readyMin = new Float64Array(count);
    this.#open = new Int32Array(count);
    this.#coming = new TaskHeap(this.readyMin);
    this.#kindsOf = pools.map(() => []);
    const kinds = new Map<string, Kind>();
    this.#kindOf = tasks.map(({ pool, alsoPool, unit }) => {
      const key = `${pool} ${alsoPool} ${unit}`;
      const known = kinds.get(key);
      if (known !== undefined) return known;
      const kind = { ready: new TaskHeap(this.#rank), isBlocked: false };
      kinds.set(key, kind);
      this.#kindsOf[pool]!.push(kind);
      return kind;
    });
    this.#waiting = new Int32Array(pools.length);
    this.#parked = pools.map(() => []);
    this.#units = pools.map((pool) => new PoolUnits(pool, work.changeMin));
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

  /**
   * Fills in `startMin`, `endMin`, `readyMin` and `unit`. Minutes are the work's own unless others were drawn. A task that can
   * never begin ends at Infinity.
   */
  run({ rank, isPatient = false }: Priorities, drawn: Partial<Drawn> = {}): void {
    const { tasks, pools } = this.#work;
    const { waitsMin, durationMin, fromMin } = this.#needs;
    const { durationsMin: minutes = durationMin, waitsMin: waits = waitsMin } = drawn;
    this.#reset(rank, drawn.fromMin ?? fromMin);
    let now = 0;
    let left = tasks.length;
    while (left > 0) {
      while (this.#coming.size > 0 && this.readyMin[this.#coming.top]! <= now)
        this.#makeReady(this.#coming.pop());
      let wakeMin = this.#coming.size > 0 ? this.readyMin[this.#coming.top]! : Infinity;
      for (let pool = 0; pool < pools.length; pool++) {
        if (this.#waiting[pool] === 0) continue;
        const units = this.#units[pool]!;
        if (units.moveOn(now)) this.#unpark(pool);
        if (units.opensMin > now) {
          wakeMin = Math.min(wakeMin, units.opensMin);
          continue;
        }
        let aside = 0;
        for (const kind of this.#kindsOf[pool]!) kind.isBlocked = false;
        for (let kind = this.#firstKind(pool); kind !== undefined; kind = this.#firstKind(pool)) {
          const task = kind.ready.top;
          const unit = this.#unitFor(task, minutes[task]!, now);
          if (unit === NONE_FREE) break;
          if (unit === NOT_NOW) {
            kind.isBlocked = true;
            continue;
          }
          // What follows it in the list would be kept waiting all the more.
          if (isPatient && unit !== TOO_LONG && this.#isKept(task, now, units.endMin)) {
            kind.isBlocked = true;
            continue;
          }
          kind.ready.pop();
          if (unit === TOO_LONG) {
            // Nor later in the pool's hours, unless another unit stays longer.
            if (units.haveOwnHours) this.#aside[aside++] = task;
            else this.#parked[pool]!.push(task);
            continue;
          }
          const { endMin } = units;
          this.#waiting[pool]! -= 1;
          this.#begin(task, unit, now, endMin);
          left -= 1;
          for (let k = this.#firstNext[task]!; k < this.#firstNext[task + 1]!; k++) {
            const next = this.#next[k]!;
            const readyMin = endMin + waits[this.#nextWait[k]!]!;
            if (readyMin > this.readyMin[next]!) this.readyMin[next] = readyMin;
            this.#open[next]! -= 1;
            if (this.#open[next] === 0) {
              this.#coming.push(next);
              wakeMin = Math.min(wakeMin, this.readyMin[next]!);
            }
          }
        }
        while (aside > 0) {
          const task = this.#aside[--aside]!;
          this.#kindOf[task]!.ready.push(task);
        }
        if (this.#waiting[pool]! > 0) wakeMin = Math.min(wakeMin, units.nextChange(now), this.#nextFree(now));
      }
      if (wakeMin === Infinity) return;
      now = Math.max(now, wakeMin);
    }
  }

  #makeReady(task: number): void {
    this.#kindOf[task]!.ready.push(task);
    this.#waiting[this.#needs.pool[task]!]! += 1;
  }

  /** In the pool's next hours: what did not fit into the last ones may into these. */
  #unpark(pool: number): void {
    for (const task of this.#parked[pool]!.splice(0)) this.#kindOf[task]!.ready.push(task);
  }

  /** Of the tasks that may begin, the kind of the lowest rank. */
  #firstKind(pool: number): Kind | undefined {
    let first: Kind | undefined;
    for (const kind of this.#kindsOf[pool]!) {
      if (kind.isBlocked || kind.ready.size === 0) continue;
      if (first === undefined || this.#isBefore(kind.ready.top, first.ready.top)) first = kind;
    }
    return first;
  }

  #isBefore(one: number, other: number): boolean {
    const [a, b] = [this.#rank[one]!, this.#rank[other]!];
    return a < b || (a === b && one < other);
  }

  #reset(rank: ArrayLike<number>, fromMin: ArrayLike<number>): void {
    const { tasks, pools } = this.#work;
    this.#coming.clear();
    this.endMin.fill(Infinity);
    this.startMin.fill(Infinity);
    this.#waiting.fill(0);
    for (let pool = 0; pool < pools.length; pool++) {
      for (const { ready } of this.#kindsOf[pool]!) ready.clear();
      this.#parked[pool]!.length = 0;
      this.#units[pool]!.reset();
    }
    for (let task = 0; task < tasks.length; task++) {
      this.#rank[task] = this.#needs.isUnderWay[task] === 1 ? -Infinity : rank[task]!;
      this.readyMin[task] = fromMin[task]!;
      const open = this.#needs.after[task]!;
      this.#open[task] = open;
      if (open === 0) this.#coming.push(task);
    }
  }

  /** The unit that would do it now, with a tool where it needs that as well; else why there is none. */
  #unitFor(task: number, minutes: number, now: number): number {
    const { pool, alsoPool, unit: own, icing, isDivisible } = this.#needs;
    const units = this.#units[pool[task]!]!;
    const unit = units.find(own[task]!, icing[task]!, isDivisible[task] === 1, minutes, now);
    const also = alsoPool[task]!;
    return also >= 0 && unit !== NONE_FREE && this.#units[also]!.free(now) < 0 ? NOT_NOW : unit;
  }

  /** Whether all units that are free now will be wanted, before this task is done, by others that go before it. */
  #isKept(task: number, now: number, endMin: number): boolean {
    const pools = this.#needs.pool;
    const pool = pools[task]!;
    const before = this.#coming.countBelow(
      endMin,
      (other) => pools[other] === pool && this.#rank[other]! < this.#rank[task]!,
    );
    return before > 0 && before >= this.#units[pool]!.countFree(now);
  }

  #begin(task: number, unit: number, now: number, endMin: number): void {
    const { pool, icing, alsoPool } = this.#needs;
    this.startMin[task] = now;
    this.endMin[task] = endMin;
    this.unit[task] = unit;
    this.#units[pool[task]!]!.take(unit, icing[task]!, endMin);
    const tools = this.#units[alsoPool[task]!];
    if (tools !== undefined) tools.take(tools.free(now), NO_ICING, endMin);
  }

  #nextFree(now: number): number {
    let soonest = Infinity;
    for (const { freeMin: free } of this.#units)
      for (const freeMin of free) if (freeMin > now && freeMin < soonest) soonest = freeMin;
    return soonest;
  }
}
