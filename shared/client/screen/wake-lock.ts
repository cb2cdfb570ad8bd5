import { createEffect, onCleanup } from "solid-js";

/** Keeps the screen awake while `wanted`, where the browser can (secure pages only); asks again when the page comes back. */
export function createWakeLock(window: Window, wanted: () => boolean): void {
  const { navigator, document } = window;
  if (!("wakeLock" in navigator)) return;
  let lock: WakeLockSentinel | undefined;
  const ask = (): void => {
    if (!wanted() || document.visibilityState !== "visible") return;
    navigator.wakeLock.request("screen").then(
      (given) => {
        lock = given;
      },
      // Low battery, or not allowed: the screen then locks as it always does, and the page says that it cannot alert.
      () => undefined,
    );
  };
  createEffect(() => {
    if (wanted()) ask();
    else void lock?.release();
  });
  document.addEventListener("visibilitychange", ask);
  onCleanup(() => document.removeEventListener("visibilitychange", ask));
}
