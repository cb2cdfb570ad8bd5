import { TaskHeap } from "./task-heap.ts";
import { type Needs, needsOf } from "./needs.ts";
import { NO_PLACE, ReadyTasks } from "./ready-tasks.ts";
import { NO_ICING, NONE_FREE, NOT_NOW, PoolUnits, TOO_LONG } from "./units.ts";
import type { Drawn, Priorities, Work } from "./work.ts";

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
  /** The priority list: tasks in its order, and each task's place in it. */
  readonly #taskAt: Int32Array;
  readonly #placeOf: Int32Array;
  /** The place of the first task of the same rank. */
  readonly #levelOf: Int32Array;
  readonly #open: Int32Array;
  readonly #firstNext: Int32Array;
  readonly #next: Int32Array;
  readonly #nextWait: Int32Array;
  readonly #coming: TaskHeap;
  /** Tasks of a pool that wait for the same units, and of each task which kind it is. */
  readonly #kindsOf: readonly ReadyTasks[][];
  readonly #kindOf: readonly ReadyTasks[];
  /** By pool: how many are ready. */
  readonly #waiting: Int32Array;
  readonly #units: readonly PoolUnits[];

  constructor(work: Work) {
    const { tasks, pools } = work;
    const count = tasks.length;
    this.#work = work;
    this.#needs = needsOf(work);
    [this.startMin, this.endMin] = [new Float64Array(count), new Float64Array(count)];
    this.unit = new Int32Array(count);
    this.#taskAt = Int32Array.from(tasks.keys());
    [this.#placeOf, this.#levelOf] = [new Int32Array(count), new Int32Array(count)];
    this.readyMin = new Float64Array(count);
    this.#open = new Int32Array(count);
    this.#coming = new TaskHeap(this.readyMin);
    this.#kindsOf = pools.map(() => []);
    const kinds = new Map<string, ReadyTasks>();
    this.#kindOf = tasks.map(({ pool, alsoPool, unit }) => {
      const key = `${pool} ${alsoPool} ${unit}`;
      const known = kinds.get(key);
      if (known !== undefined) return known;
      const kind = new ReadyTasks(count);
      kinds.set(key, kind);
      this.#kindsOf[pool]!.push(kind);
      return kind;
    });
    this.#waiting = new Int32Array(pools.length);
    this.#units = pools.map((pool) => new PoolUnits(pool, work.changeMin));
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
    const { waitsMin, durationMin, fromMin, leastMin } = this.#needs;
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
        // In the pool's next hours: what did not fit into the last ones may into these.
        if (units.moveOn(now)) for (const kind of this.#kindsOf[pool]!) kind.unpark();
        if (units.opensMin > now) {
          wakeMin = Math.min(wakeMin, units.opensMin);
          continue;
        }
        const kinds = this.#kindsOf[pool]!;
        for (const kind of kinds) kind.lookAgain();
        for (let kind = firstOf(kinds); kind !== undefined; kind = firstOf(kinds)) {
          const task = this.#taskAt[kind.first]!;
          // Nobody stays longer than the pool is open: in most openings' last hour this is all there is to know.
          if (now + Math.min(minutes[task]!, leastMin[task]!) > units.closesMin) {
            kind.park();
            continue;
          }
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
          if (unit === TOO_LONG) {
            // Nor later in the pool's hours, unless another unit stays longer.
            if (units.haveOwnHours) kind.passOver();
            else kind.park();
            continue;
          }
          kind.take();
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
        if (this.#waiting[pool]! > 0) wakeMin = Math.min(wakeMin, units.nextChange(now), this.#nextFree(now));
      }
      // Nor where a figure is no number: a plan with a hole in it, never a hang.
      if (!(wakeMin < Infinity)) return;
      now = Math.max(now, wakeMin);
    }
  }

  #makeReady(task: number): void {
    this.#kindOf[task]!.add(this.#placeOf[task]!);
    this.#waiting[this.#needs.pool[task]!]! += 1;
  }

  #reset(rank: ArrayLike<number>, fromMin: ArrayLike<number>): void {
    const { tasks, pools } = this.#work;
    this.#sort(rank);
    this.#coming.clear();
    this.endMin.fill(Infinity);
    this.startMin.fill(Infinity);
    this.#waiting.fill(0);
    for (let pool = 0; pool < pools.length; pool++) {
      for (const kind of this.#kindsOf[pool]!) kind.clear();
      this.#units[pool]!.reset();
    }
    for (let task = 0; task < tasks.length; task++) {
      this.readyMin[task] = fromMin[task]!;
      const open = this.#needs.after[task]!;
      this.#open[task] = open;
      if (open === 0) this.#coming.push(task);
    }
  }

  /** The priority list by rank, what is under way before all else. One much like the last is soon in order. */
  #sort(rank: ArrayLike<number>): void {
    const [order, isUnderWay] = [this.#taskAt, this.#needs.isUnderWay];
    const byRank = (a: number, b: number): number =>
      isUnderWay[b]! - isUnderWay[a]! || (isUnderWay[a] === 1 ? 0 : rank[a]! - rank[b]!);
    const compare = (a: number, b: number): number => byRank(a, b) || a - b;
    let place = 1;
    while (place < order.length && compare(order[place - 1]!, order[place]!) < 0) place += 1;
    if (place < order.length) order.sort(compare);
    let level = 0;
    for (let k = 0; k < order.length; k++) {
      const task = order[k]!;
      if (k > 0 && byRank(order[k - 1]!, task) < 0) level = k;
      this.#placeOf[task] = k;
      this.#levelOf[task] = level;
    }
  }

  /** The unit that would do it now, with a tool where it needs that as well; else why there is none. */
  #unitFor(task: number, minutes: number, now: number): number {
    const { pool, alsoPool, unit: own, icing, leastMin } = this.#needs;
    const units = this.#units[pool[task]!]!;
    const unit = units.find(own[task]!, icing[task]!, leastMin[task]!, minutes, now);
    const also = alsoPool[task]!;
    return also >= 0 && unit !== NONE_FREE && this.#units[also]!.free(now) < 0 ? NOT_NOW : unit;
  }

  /** Whether all units that are free now will be wanted, before this task is done, by others that go before it. */
  #isKept(task: number, now: number, endMin: number): boolean {
    const { pool: pools } = this.#needs;
    const [pool, level, coming] = [pools[task]!, this.#levelOf[task]!, this.#coming];
    const free = this.#units[pool]!.countFree(now);
    let before = 0;
    for (let k = coming.firstBelow(endMin); k >= 0; k = coming.nextBelow(endMin, k)) {
      const other = coming.at(k);
      if (pools[other] === pool && this.#levelOf[other]! < level && (before += 1) >= free) return true;
    }
    return false;
  }

  #begin(task: number, unit: number, now: number, endMin: number): void {
    const { pool, icing, alsoPool } = this.#needs;
    this.startMin[task] = now;
    this.endMin[task] = endMin;
    this.unit[task] = unit;
    this.#units[pool[task]!]!.take(unit, icing[task]!, endMin);
    const also = alsoPool[task]!;
    if (also < 0) return;
    const tools = this.#units[also]!;
    tools.take(tools.free(now), NO_ICING, endMin);
  }

  #nextFree(now: number): number {
    let soonest = Infinity;
    for (const units of this.#units) soonest = Math.min(soonest, units.nextFree(now));
    return soonest;
  }
}

/** Of the tasks that may begin, the kind of the first in the list. */
function firstOf(kinds: readonly ReadyTasks[]): ReadyTasks | undefined {
  let first: ReadyTasks | undefined;
  let place = NO_PLACE;
  for (const kind of kinds)
    if (kind.first < place && !kind.isBlocked) {
      first = kind;
      place = kind.first;
    }
  return first;
}
