import type { Timer } from "#shared/client/sync/timer.ts";

/** The browser's clock and timers. */
export const browserTimer = (window: Window): Timer => ({
  nowMs: () => Date.now(),
  after(delayMs, run) {
    const id = window.setTimeout(run, delayMs);
    return () => window.clearTimeout(id);
  },
});

/** Runs when the page is seen again, or the network is back: iOS lets sockets die in the background. Returns what stops it. */
export function onWake(window: Window, run: () => void): () => void {
  const { document } = window;
  const seen = (): void => {
    if (document.visibilityState === "visible") run();
  };
  document.addEventListener("visibilitychange", seen);
  window.addEventListener("pageshow", run);
  window.addEventListener("online", run);
  return () => {
    document.removeEventListener("visibilitychange", seen);
    window.removeEventListener("pageshow", run);
    window.removeEventListener("online", run);
  };
}

/** Runs at each tap or key: at its end, since before that browsers let no sound in for it. */
export function onTap(window: Window, run: () => void): void {
  for (const type of ["click", "touchend", "keydown"]) window.addEventListener(type, run, { capture: true });
}
