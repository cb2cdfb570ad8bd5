import type { Timer } from "#shared/client/sync/timer.ts";

/** The browser's clock and timers. */
export const browserTimer = (window: Window): Timer => ({
  nowMs: () => Date.now(),
  after(delayMs, run) {
    const id = window.setTimeout(run, delayMs);
    return () => window.clearTimeout(id);
  },
});

/** Runs when the page is seen again, or the network is back. Returns what stops it. */
export function onWake(window: Window, run: () => void): () => void {
  const { document } = window;
  const seen = (): void => {
    if (document.visibilityState === "visible") run();
  };
  document.addEventListener("visibilitychange", seen);
  window.addEventListener("online", run);
  return () => {
    document.removeEventListener("visibilitychange", seen);
    window.removeEventListener("online", run);
  };
}

/** Keeps the screen lit where the browser can: only on https, and again whenever the page is seen anew. */
export function stayLit(window: Window): void {
  const { navigator, document } = window;
  if (!("wakeLock" in navigator)) return;
  const ask = (): void => void navigator.wakeLock.request("screen").catch(() => undefined);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") ask();
  });
  ask();
}
