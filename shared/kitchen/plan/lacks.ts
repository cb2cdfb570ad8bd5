import { openFromMs, openSinceMs } from "#shared/kitchen/model/opening-hours.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { crewOf } from "./crew.ts";
import { openHours } from "./hours.ts";

/** What a plan can lack: then it counts on one pair of hands, or on a kitchen that never closes. */
export type Lack = "hands" | "opening hours";

/** What the plan has to be made without. */
export function lacksOf(kitchen: Kitchen, nowMs: number): Lack[] {
  const { settings } = kitchen;
  const crew = crewOf(kitchen, openHours(settings, nowMs), nowMs);
  const hasNobody = settings.hands == null && crew.every(({ id }) => id === undefined);
  const isEverOpen = openSinceMs(settings, nowMs) !== undefined || openFromMs(settings, nowMs) > nowMs;
  return [...(hasNobody ? ["hands" as const] : []), ...(isEverOpen ? [] : ["opening hours" as const])];
}
