/** A step back smaller than this is let be, ms: it harms no heat's clock. */
const STEP_MS = 2000;

export interface SteadyClock {
  /** Real milliseconds since 1970 UTC. */
  realMs: () => number;
  /** From now on time goes on from `fromMs`, and does not step back while `isNeeded` says so. */
  hold: (fromMs: number, isNeeded: () => boolean) => void;
}

/**
 * The machine's time, but while heat is on it never steps back: a small computer without a battery comes back from a power cut
 * hours behind, and a heat clock that then lay in the future would raise no alarm. `monotonicMs` only ever goes forward.
 */
export function steadyClock(
  wallMs: () => number,
  monotonicMs: () => number,
  report: (line: string) => void,
): SteadyClock {
  let base = { atMs: wallMs(), monotonicMs: monotonicMs() };
  let isNeeded = (): boolean => false;
  let isBehind = false;

  function realMs(): number {
    const [wall, monotonic] = [wallMs(), monotonicMs()];
    const onMs = Math.round(base.atMs + monotonic - base.monotonicMs);
    if (wall < onMs - STEP_MS && isNeeded()) {
      if (!isBehind)
        report(
          `This machine's clock is ${Math.round((onMs - wall) / 1000)} s behind the heat that is on: the kitchen's time goes on until it is off. Set the clock right.`,
        );
      isBehind = true;
      return onMs;
    }
    isBehind = false;
    base = { atMs: wall, monotonicMs: monotonic };
    return wall;
  }

  return {
    realMs,
    hold(fromMs, needed) {
      isNeeded = needed;
      if (fromMs > realMs()) base = { atMs: fromMs, monotonicMs: monotonicMs() };
    },
  };
}
