import { MIN_MS } from "#shared/time.ts";

/** Minutes from a plan's start as a moment, to the clock's minute: what is done now begins now, and what begins at opening at opening. */
export function momentsFrom(nowMs: number): (min: number) => number {
  return (min) => {
    if (min === 0) return nowMs;
    const ms = Math.round(nowMs / MIN_MS + min) * MIN_MS;
    return min < 0 ? ms : Math.max(nowMs, ms);
  };
}
