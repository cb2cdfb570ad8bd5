import type { Timer } from "#shared/client/sync/timer.ts";

/** A browser's timers, beside the clock it is given. */
export const browserTimer = (window: Window, nowMs: () => number): Timer => ({
  nowMs,
  after(delayMs, run) {
    const id = window.setTimeout(run, delayMs);
    return () => window.clearTimeout(id);
  },
});

/** Runs when the page is shown again, or the network is back. Returns what stops it. */
export function onWake(window: Window, run: () => void): () => void {
  const { document } = window;
  const seen = (): void => {
    if (document.visibilityState === "visible") run();
  };
  document.addEventListener("visibilitychange", seen);
  // iOS lets sockets die in the background: a page that is shown again may have lost its own.
  for (const event of ["pageshow", "online"]) window.addEventListener(event, run);
  return () => {
    document.removeEventListener("visibilitychange", seen);
    for (const event of ["pageshow", "online"]) window.removeEventListener(event, run);
  };
}

/** Runs at the end of each tap or key: before that browsers let no sound in for it. Returns what stops it. */
export function onTap(window: Window, run: () => void): () => void {
  for (const type of ["click", "touchend", "keydown"]) window.addEventListener(type, run, { capture: true });
  return () => {
    for (const type of ["click", "touchend", "keydown"])
      window.removeEventListener(type, run, { capture: true });
  };
}
