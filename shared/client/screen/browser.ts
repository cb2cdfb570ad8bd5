import type { Timer } from "#shared/client/sync/timer.ts";

/** A browser's timers, beside the clock it is given. */
export const browserTimer = (window: Window, nowMs: () => number): Timer => ({
  nowMs,
  after(delayMs, run) {
    const id = window.setTimeout(run, delayMs);
    return () => window.clearTimeout(id);
  },
});

/** Runs when the page is seen again, and at these events of its window. Returns what stops it. */
export function onWake(
  window: Window,
  events: readonly ("online" | "pageshow")[],
  run: () => void,
): () => void {
  const { document } = window;
  const seen = (): void => {
    if (document.visibilityState === "visible") run();
  };
  document.addEventListener("visibilitychange", seen);
  for (const event of events) window.addEventListener(event, run);
  return () => {
    document.removeEventListener("visibilitychange", seen);
    for (const event of events) window.removeEventListener(event, run);
  };
}
