import { latestStartMin } from "./hours.ts";
import { type PlanFilm, spanOf } from "./plan-films.ts";
import type { FilmWait } from "./plan-films.ts";
import type { PlanWork } from "./plan-work.ts";
import { MIN_MS } from "#shared/time.ts";
import { TENTH_Z } from "#shared/drying/uncertainty/normal.ts";

/** "Start by" is said so that four in five of the films are dry in time. */
const START_BY_Z = 0.84;
/** Far behind everything that is due. */
export const NOT_DUE_MIN = 1e9;

/**
 * The latest moment at which each task may begin, minutes from the plan's start, so that its tray is packed by its due time: within
 * opening hours, its person's where it has one, with films slower than four in five. Hands are taken
 * to be there. Below nought, and without opening hours in the way, where it is too late already. `dueMin` has one number a task.
 */
export function latestStarts(work: PlanWork, dueMin: ArrayLike<number>): Float64Array {
  const { tasks, films, pools } = work;
  const endBy = new Float64Array(tasks.length).fill(NOT_DUE_MIN);
  const startBy = new Float64Array(tasks.length);
  for (let task = tasks.length - 1; task >= 0; task -= 1) {
    const { act, pool, unit, durationMin, isDivisible, after } = tasks[task]!;
    if (act === "pack") endBy[task] = dueMin[task]!;
    const byMin = endBy[task]!;
    const { hours, unitHours } = pools[pool]!;
    const start = latestStartMin(unitHours?.[unit ?? -1] ?? hours, byMin, durationMin, isDivisible);
    startBy[task] = start === -Infinity ? byMin - durationMin : start;
    for (const { task: before, ends } of after) {
      const waitMin = ends === undefined ? 0 : slowMin(films, ends);
      endBy[before] = Math.min(endBy[before]!, Math.max(-NOT_DUE_MIN, startBy[task]! - waitMin));
    }
  }
  return startBy;
}

function slowMin(films: readonly PlanFilm[], { film, need }: FilmWait): number {
  if (need === "wet") return 0;
  const span = spanOf(films[film]!, need);
  if ("never" in span) return Infinity;
  return (span.likelyMs / MIN_MS) * (span.latestMs / span.likelyMs) ** (START_BY_Z / TENTH_Z);
}
