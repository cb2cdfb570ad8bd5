import { createEffect, onCleanup } from "solid-js";
import { isInFront, listen } from "./browser.ts";

/** Keeps the screen awake while `wanted`, where the browser can (secure pages only); asks again when the page comes back. */
export function createWakeLock(window: Window, wanted: () => boolean): void {
  const { navigator, document } = window;
  if (!("wakeLock" in navigator)) return;
  let lock: WakeLockSentinel | undefined;
  async function ask(): Promise<void> {
    // Low battery, or not allowed: the screen then locks as it always does, and the page says that it cannot alert.
    if (wanted() && isInFront(window)) lock = await navigator.wakeLock.request("screen").catch(() => lock);
  }
  createEffect(() => void (wanted() ? ask() : lock?.release()));
  onCleanup(listen(document, ["visibilitychange"], () => void ask()));
}
