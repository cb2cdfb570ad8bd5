import type { Timer } from "#shared/client/timer.ts";

/** The browser's clock and timers. */
export const browserTimer = (window: Window): Timer => ({
  nowMs: () => Date.now(),
  after(delayMs, run) {
    const id = window.setTimeout(run, delayMs);
    return () => window.clearTimeout(id);
  },
});

/** Runs when the page is seen again, or the network is back: iOS lets sockets die in the background. */
export function onWake(window: Window, run: () => void): void {
  window.document.addEventListener("visibilitychange", () => {
    if (window.document.visibilityState === "visible") run();
  });
  window.addEventListener("pageshow", run);
  window.addEventListener("online", run);
}

/** Runs at each tap or key: at its end, since before that browsers let no sound in for it. */
export function onTap(window: Window, run: () => void): void {
  for (const type of ["click", "touchend", "keydown"]) window.addEventListener(type, run, { capture: true });
}

const RELOADED = "traytide.reloaded";
const RELOAD_AGAIN_MS = 60_000;

/** Loads the page anew, but not over and over: a shell kept from before may be served once more. */
export function reloadOnce(window: Window, nowMs: number): void {
  const last = Number(window.sessionStorage.getItem(RELOADED) ?? 0);
  if (nowMs - last < RELOAD_AGAIN_MS) return;
  window.sessionStorage.setItem(RELOADED, String(nowMs));
  window.location.reload();
}
