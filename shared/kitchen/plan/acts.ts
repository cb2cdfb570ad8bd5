import type { PlannedNext } from "#shared/kitchen/model/forecast.ts";
import { momentsFrom } from "./moments.ts";
import type { PlanWork } from "./plan-work.ts";
import { HANDS } from "./resources.ts";
import { Scheduler } from "#shared/scheduling/schedule.ts";
import { latestStarts, NOT_DUE_MIN } from "./start-by.ts";
import type { Priorities } from "#shared/scheduling/work.ts";

/** One act of the plan. */
export interface PlannedAct extends PlannedNext {
  trayId: string;
  endMs: number;
  /** Where the tray stands, or the oven it goes to. */
  place?: string;
}

/** The likely day, act by act. What is left of an order that cannot be met any more (`isLost`) is to be begun now. */
export function actsOf(
  nowMs: number,
  work: PlanWork,
  policy: Priorities,
  dueMin: Float64Array,
  isLost: (trayId: string) => boolean,
): PlannedAct[] {
  const scheduler = new Scheduler(work);
  scheduler.run(policy);
  const startBy = latestStarts(work, dueMin);
  const at = momentsFrom(nowMs);
  return work.tasks
    .flatMap((task, k): PlannedAct[] => {
      const [startMin, endMin] = [scheduler.startMin[k]!, scheduler.endMin[k]!];
      if (endMin === Infinity) return [];
      const { trayId, act, layer, pool, placeId, heatMin, isUnderWay } = task;
      const who = pool === HANDS ? work.crew[scheduler.unit[k]!]?.id : undefined;
      const shared = {
        trayId,
        ...(layer === undefined ? {} : { layer }),
        ...(who === undefined ? {} : { who }),
        ...(placeId === undefined ? {} : { place: placeId }),
      };
      const isDue = isUnderWay !== true && startBy[k]! < NOT_DUE_MIN / 2;
      const first: PlannedAct = {
        ...shared,
        act: act === "lay" ? "flood" : act,
        startMs: at(startMin),
        endMs: at(endMin - heatMin),
        ...(isDue ? { startByMs: at(isLost(trayId) ? Math.min(0, startBy[k]!) : startBy[k]!) } : {}),
      };
      return heatMin > 0
        ? [first, { ...shared, act: "heat", startMs: at(endMin - heatMin), endMs: at(endMin) }]
        : [first];
    })
    .toSorted((a, b) => a.startMs - b.startMs || a.endMs - b.endMs || (a.trayId < b.trayId ? -1 : 1));
}
