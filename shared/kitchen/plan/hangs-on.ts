import type { HangsOn } from "#shared/kitchen/model/forecast.ts";
import { closedMin, firstClosingMin } from "./hours.ts";
import type { Scheduler } from "#shared/scheduling/schedule.ts";
import type { PlanTask, PlanWork } from "./plan-work.ts";
import { HANDS } from "./resources.ts";

/** One stretch of the chain of acts and waits that ends with a task, last first. */
interface Stretch {
  is: "work" | "drying" | "hands" | "closed";
  task: number;
  layer?: number;
  min: number;
  startMin: number;
  endMin: number;
}

/** The chain that decides when a task ends: before each act what it waited for last. `waitsMin` as the schedule was run with. */
export function criticalChain(
  work: PlanWork,
  scheduler: Scheduler,
  waitsMin: ArrayLike<number>,
  firstWait: Int32Array,
  last: number,
): Stretch[] {
  const chain: Stretch[] = [];
  for (let task: number | undefined = last; task !== undefined;) {
    const own: PlanTask = work.tasks[task]!;
    const [startMin, endMin, readyMin] = [
      scheduler.startMin[task]!,
      scheduler.endMin[task]!,
      scheduler.readyMin[task]!,
    ];
    const stopped = own.alsoPool === undefined && own.pool > 0 ? 0 : closedMin(work.hours, startMin, endMin);
    chain.push({ is: "work", task, min: endMin - startMin - stopped, startMin, endMin });
    const closed = stopped + closedMin(work.hours, readyMin, startMin);
    if (closed > 0) chain.push({ is: "closed", task, min: closed, startMin: readyMin, endMin });
    chain.push({
      is: "hands",
      task,
      min: startMin - readyMin - (closed - stopped),
      startMin: readyMin,
      endMin: startMin,
    });
    let before: number | undefined;
    for (const [k, { task: earlier, ends }] of own.after.entries()) {
      const wait = waitsMin[firstWait[task]! + k]!;
      if (Math.abs(scheduler.endMin[earlier]! + wait - readyMin) > SAME_MIN) continue;
      before = earlier;
      if (ends !== undefined)
        chain.push({
          is: "drying",
          task,
          ...layerOf(work, ends.film),
          min: wait,
          startMin: readyMin - wait,
          endMin: readyMin,
        });
      break;
    }
    if (before === undefined && own.waits.length > 0 && readyMin > 0)
      chain.push({
        is: "drying",
        task,
        ...layerOf(work, own.waits.at(-1)!.film),
        min: readyMin,
        startMin: 0,
        endMin: readyMin,
      });
    task = before;
  }
  return chain;
}

const SAME_MIN = 1e-6;

const layerOf = ({ films }: PlanWork, film: number): { layer: number } => ({
  layer: Number(films[film]!.key.split("/").at(-1)),
});

/** What most of a chain's time goes into. */
export function longestOf(
  work: PlanWork,
  scheduler: Scheduler,
  chain: readonly Stretch[],
): HangsOn["because"] {
  const longest = chain.reduce((most, one) => (one.min > most.min ? one : most));
  if (longest.is === "closed") return { is: "closed" };
  if (longest.is === "drying") return { is: "drying", layer: longest.layer ?? 0 };
  const { act, layer } = work.tasks[longest.task]!;
  const is = longest.is === "hands" && isToolShort(work, scheduler, longest.task) ? "tool" : longest.is;
  return { is, act: act === "lay" ? "flood" : act, ...(layer === undefined ? {} : { layer }) };
}

/** Whether a task that had to wait did so for an oven or hot air: just before it began none was free, and someone was. */
function isToolShort({ tasks, pools }: PlanWork, { startMin, endMin }: Scheduler, task: number): boolean {
  const { pool, alsoPool } = tasks[task]!;
  if (alsoPool === undefined) return pool !== HANDS;
  const beganMin = startMin[task]!;
  const areAllBusy = (of: number): boolean => {
    let busy = 0;
    for (let k = 0; k < tasks.length; k += 1) {
      if (startMin[k]! >= beganMin - SAME_MIN || endMin[k]! <= beganMin - SAME_MIN) continue;
      if (tasks[k]!.pool === of || tasks[k]!.alsoPool === of) busy += 1;
    }
    return busy >= pools[of]!.units;
  };
  return areAllBusy(alsoPool) && !areAllBusy(pool);
}

/** The first closing that holds up a chain. */
export const closingOn = (work: PlanWork, chain: readonly Stretch[]): number | undefined =>
  chain
    .filter(({ is }) => is === "closed")
    .map(({ startMin, endMin }) => firstClosingMin(work.hours, startMin, endMin))
    .findLast((min) => min !== undefined);
