import type { ClockFact } from "#shared/protocol/clock.ts";

/** The two clocks of a server: real time (heartbeats, rate limits) and the kitchen's (everything that is stored). */
export interface Clock {
  readonly fact: ClockFact;
  /** Real milliseconds since 1970 UTC. */
  realMs: () => number;
  /** Kitchen time now, whole milliseconds since 1970 UTC. Equal to real time unless in practice. */
  nowMs: () => number;
}

/** Timers as a port, so that tests drive them by hand. Each returns what stops it. */
export interface Timers {
  every: (ms: number, act: () => void) => () => void;
  after: (ms: number, act: () => void) => () => void;
}

/**
 * A kitchen clock that runs `speed` times (1–600) as fast as real time. A practice kitchen's may start at another
 * moment; any other is level with real time, and stays so when that is set right.
 */
export function kitchenClock(realMs: () => number, speed: number, opensMs?: number): Clock {
  const startMs = realMs();
  const kitchenMs = opensMs ?? startMs;
  const isReal = speed === 1 && opensMs === undefined;
  return {
    fact: { speed, realMs: startMs, kitchenMs },
    realMs,
    nowMs: () => (isReal ? realMs() : Math.round(kitchenMs + (realMs() - startMs) * speed)),
  };
}

export const systemTimers: Timers = {
  every: (ms, act) => {
    const timer = setInterval(act, ms);
    return () => clearInterval(timer);
  },
  after: (ms, act) => {
    const timer = setTimeout(act, ms);
    return () => clearTimeout(timer);
  },
};
