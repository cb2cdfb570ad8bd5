import type { Work } from "#shared/scheduling/work.ts";

/**
 * A priority list to begin with: by the latest moment at which a task may begin if what follows it is to be done by its due
 * time, minutes from the plan's start (`dueMin`, one number a task; Infinity where nothing is due). Waits count as work does.
 */
export function byLatestStart(work: Work, dueMin: ArrayLike<number>): Float64Array {
  const latest = Float64Array.from(work.tasks, ({ durationMin }, task) => dueMin[task]! - durationMin);
  // Tasks name those before them, so each is settled before any that it follows.
  for (let task = work.tasks.length - 1; task >= 0; task--)
    for (const { task: before, waitMin } of work.tasks[task]!.after) {
      const mustStart = latest[task]! - waitMin - work.tasks[before]!.durationMin;
      if (mustStart < latest[before]!) latest[before] = mustStart;
    }
  return latest;
}
