import type { Timer } from "#shared/client/sync/timer.ts";

/** A browser's timers, beside the clock it is given. */
export const browserTimer = (window: Window, nowMs: () => number): Timer => ({
  nowMs,
  after(delayMs, run) {
    const id = window.setTimeout(run, delayMs);
    return () => window.clearTimeout(id);
  },
});

/** Runs at each of these events; returns what stops it. */
export function listen<Heard extends Event>(
  target: EventTarget,
  types: readonly string[],
  run: (event: Heard) => void,
  options?: AddEventListenerOptions,
): () => void {
  const heard = run as (event: Event) => void;
  for (const type of types) target.addEventListener(type, heard, options);
  return () => {
    for (const type of types) target.removeEventListener(type, heard, options);
  };
}

export const isInFront = ({ document }: Window): boolean => document.visibilityState === "visible";

/** Runs when the page is shown again, or the network is back. Returns what stops it. */
export function onWake(window: Window, run: () => void): () => void {
  const stopSeeing = listen(window.document, ["visibilitychange"], () => isInFront(window) && run());
  // iOS lets sockets die in the background: a page that is shown again may have lost its own.
  const stopHearing = listen(window, ["pageshow", "online"], run);
  return () => {
    stopSeeing();
    stopHearing();
  };
}

/** Runs at the end of each tap or key: before that browsers let no sound in for it. Returns what stops it. */
export const onTap = (window: Window, run: () => void): (() => void) =>
  listen(window, ["click", "touchend", "keydown"], run, { capture: true });

/** How long a page may be busy before a quiet moment is waited for no more. */
const BUSY_MS = 2000;

/** Runs once when the page has nothing else to do, where the browser can tell. What it rejects with is for others to say. */
export function whenQuiet(window: Window, run: () => Promise<void>): void {
  const quietly = (): void => void run().catch(() => undefined);
  if ("requestIdleCallback" in window) window.requestIdleCallback(quietly, { timeout: BUSY_MS });
  else (window as Window).setTimeout(quietly, BUSY_MS / 4);
}
