/** What a screen is given instead of a clock of its own. `nowMs` is the device's own, ms since 1970. */
export interface Timer {
  nowMs(): number;
  /** Runs once after `delayMs` (below 2^31); returns what cancels it. */
  after(delayMs: number, run: () => void): () => void;
}

/** Runs again and again until cancelled. */
export function every(timer: Timer, periodMs: number, run: () => void): () => void {
  let cancel = timer.after(periodMs, again);
  function again(): void {
    cancel = timer.after(periodMs, again);
    run();
  }
  return () => cancel();
}
