import type { Clock, Timers } from "#server/live/clock.ts";

/** A Thursday morning, before any kitchen opens. */
export const START_MS = Date.UTC(2026, 4, 7, 5, 0);

/** A clock and timers that stand still until told. */
export interface HandDriven {
  clock: Clock;
  timers: Timers;
  /** Lets time pass: every timer fires at its moment, as often as it is due. */
  advance: (ms: number) => void;
  /** As a machine that slept: the clock is later at once, and what is due fires once. */
  jump: (ms: number) => void;
}

interface Due {
  atMs: number;
  everyMs?: number;
  act: () => void;
}

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
    jump: (ms) => {
      nowMs += ms;
      for (const one of [...due].filter(({ atMs }) => atMs <= nowMs)) {
        if (one.everyMs === undefined) due.delete(one);
        else one.atMs = nowMs + one.everyMs;
        one.act();
      }
    },
  };
}
