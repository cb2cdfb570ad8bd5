import type { Timers } from "./clock.ts";

const EVERY_MS = 1000;

export interface Heartbeat {
  /** Screens were told something, which says as well that the server lives. */
  told: () => void;
  stop: () => void;
}

/** Beats a second after screens were told anything, its own beats included. `monotonicMs`: a real clock that only goes forward. */
export function startHeartbeat(
  timers: Pick<Timers, "after">,
  monotonicMs: () => number,
  beat: () => void,
): Heartbeat {
  let toldMs = monotonicMs();
  const untilDueMs = (): number => EVERY_MS - (monotonicMs() - toldMs);
  function look(): void {
    if (untilDueMs() <= 0) beat();
    stop = timers.after(Math.max(1, Math.ceil(untilDueMs())), look);
  }
  let stop = timers.after(EVERY_MS, look);
  return { told: () => void (toldMs = monotonicMs()), stop: () => stop() };
}
