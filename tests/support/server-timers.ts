import type { Clock, Timers } from "#server/clock.ts";

/** A Thursday morning, before any kitchen opens. */
export const START_MS = Date.UTC(2026, 4, 7, 5, 0);

/** A clock and timers that stand still until `advance`. */
export interface HandDriven {
  clock: Clock;
  timers: Timers;
  advance: (ms: number) => void;
}

interface Due {
  atMs: number;
  everyMs?: number;
  act: () => void;
}

/** Timers fire in order of their time, as `advance` passes it. */
export function handDriven(startMs = START_MS): HandDriven {
  let nowMs = startMs;
  const due = new Set<Due>();
  const add = (one: Due): (() => void) => {
    due.add(one);
    return () => due.delete(one);
  };
  return {
    clock: {
      fact: { speed: 1, realMs: startMs, kitchenMs: startMs },
      realMs: () => nowMs,
      nowMs: () => nowMs,
    },
    timers: {
      every: (ms, act) => add({ atMs: nowMs + ms, everyMs: ms, act }),
      after: (ms, act) => add({ atMs: nowMs + ms, act }),
    },
    advance: (ms) => {
      const untilMs = nowMs + ms;
      for (;;) {
        const next = [...due].filter(({ atMs }) => atMs <= untilMs).toSorted((a, b) => a.atMs - b.atMs)[0];
        if (next === undefined) break;
        nowMs = Math.max(nowMs, next.atMs);
        if (next.everyMs === undefined) due.delete(next);
        else next.atMs += next.everyMs;
        next.act();
      }
      nowMs = untilMs;
    },
  };
}
