import { Scheduler } from "./schedule.ts";
import { type Priorities, waitsOf, type Work } from "./work.ts";

/** What a schedule costs: the less the better. */
export type Cost = (scheduler: Scheduler) => number;

/**
 * The best of some priority lists, and of `ifNeedBe` where none of the first costs as little as `enough`, improved by local search until its cost is `enough`: a task moves to another place in the list, and stays there where the schedule costs
 * little more, ever less of it towards the end (threshold accepting, Dueck & Scheuer 1990, from memory); the best is kept.
 * `random` gives 0 ≤ r < 1. In steps of one schedule each, for a server with other things to do.
 */
export function* improved(
  work: Work,
  firsts: readonly Float64Array[],
  cost: Cost,
  tries: number,
  random: () => number,
  enough = 0,
  ifNeedBe: readonly Float64Array[] = [],
): Generator<void, Priorities & { cost: number }> {
  const scheduler = new Scheduler(work);
  const waits = waitsOf(work);
  const costOf = (priorities: Priorities): number => {
    scheduler.run(priorities, { waitsMin: waits });
    return cost(scheduler);
  };
  const count = work.tasks.length;
  const most = count > 1 ? tries / 2 : 0;
  let best = { rank: firsts[0]!, isPatient: false, cost: Infinity };
  for (const rank of [...firsts, ...ifNeedBe]) {
    if (ifNeedBe.includes(rank) && best.cost <= enough) break;
    for (const isPatient of [false, true]) {
      const own = costOf({ rank, isPatient });
      if (own < best.cost) best = { rank, isPatient, cost: own };
      yield;
    }
  }
  // First with no unit ever idle, then from the best of these with patience as well.
  for (const isPatient of [false, true]) {
    const order = Int32Array.from(
      [...best.rank.keys()].toSorted((a, b) => best.rank[a]! - best.rank[b]! || a - b),
    );
    const rank = new Float64Array(count);
    for (const [place, task] of order.entries()) rank[task] = place;
    let now = costOf({ rank, isPatient });
    yield;
    for (let tried = 0; tried < most && best.cost > enough; tried++) {
      const from = Math.floor(random() * count);
      const reach = 1 + Math.floor(random() ** 2 * Math.min(count - 1, LONGEST_MOVE));
      const to = random() < 0.5 ? Math.max(0, from - reach) : Math.min(count - 1, from + reach);
      move(order, rank, from, to);
      const moved = costOf({ rank, isPatient });
      if (moved > now * (1 + WORSE_SHARE * (1 - tried / most))) move(order, rank, to, from);
      else now = moved;
      if (now < best.cost) best = { rank: rank.slice(), isPatient, cost: now };
      yield;
    }
  }
  return best;
}

/** How much more a change may cost and stay, at the beginning. */
const WORSE_SHARE = 0.02;
/** Places a task moves in the list at most. */
const LONGEST_MOVE = 60;

/** Takes the task out of one place in the list and puts it into another. */
function move(order: Int32Array, rank: Float64Array, from: number, to: number): void {
  const task = order[from]!;
  const step = to > from ? 1 : -1;
  for (let place = from; place !== to; place += step) {
    order[place] = order[place + step]!;
    rank[order[place]!] = place;
  }
  order[to] = task;
  rank[task] = to;
}
