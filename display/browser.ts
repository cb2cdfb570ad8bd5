import type { Timer } from "#shared/client/timer.ts";

/** The browser's clock and timers. */
export const browserTimer = (window: Window): Timer => ({
  nowMs: () => Date.now(),
  after(delayMs, run) {
    const id = window.setTimeout(run, delayMs);
    return () => window.clearTimeout(id);
  },
});

/** Runs when the page is seen again, or the network is back. */
export function onWake(window: Window, run: () => void): void {
  window.document.addEventListener("visibilitychange", () => {
    if (window.document.visibilityState === "visible") run();
  });
  window.addEventListener("online", run);
}

const RELOADED = "traytide.wall.reloaded";
const RELOAD_AGAIN_MS = 60_000;

/** Loads the page anew, but not over and over. */
export function reloadOnce(window: Window, nowMs: number): void {
  const last = Number(window.sessionStorage.getItem(RELOADED) ?? 0);
  if (nowMs - last < RELOAD_AGAIN_MS) return;
  window.sessionStorage.setItem(RELOADED, String(nowMs));
  window.location.reload();
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
