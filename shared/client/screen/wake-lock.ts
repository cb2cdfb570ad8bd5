import { type Accessor, createEffect, createSignal, onCleanup } from "solid-js";
import { isInFront, listen, onTap } from "./browser.ts";

/** Why a screen may go dark: the browser has no wake lock, has none over plain http, or did not give it. */
export type GoesDark = "no-lock" | "plain-connection" | "refused";

/** What this browser lacks to keep its screen awake, wanted or not; undefined where it has what it takes. */
export function lacksWakeLock(window: Window): Exclude<GoesDark, "refused"> | undefined {
  if ("wakeLock" in window.navigator) return undefined;
  return window.isSecureContext ? "no-lock" : "plain-connection";
}

/**
 * Keeps the screen awake while `wanted`, where the browser can; asks again when the page comes back, and at each tap until it
 * has the lock: WebKit gives the first one only for a tap. Gives why the screen may go dark all the same.
 */
export function createWakeLock(window: Window, wanted: () => boolean): Accessor<GoesDark | undefined> {
  const { navigator, document } = window;
  const lacking = lacksWakeLock(window);
  if (lacking !== undefined) return () => (wanted() ? lacking : undefined);
  const [isRefused, setRefused] = createSignal(false);
  let lock: WakeLockSentinel | undefined;
  let isGone = false;
  const isDue = (): boolean => !isGone && wanted() && isInFront(window);
  async function ask(): Promise<void> {
    if (!isDue()) return;
    try {
      const given = await navigator.wakeLock.request("screen");
      if (!isDue()) return void given.release();
      lock = given;
      // Short of battery, a phone takes back what it gave. A page out of sight loses it too, and asks again on return.
      given.addEventListener("release", () => void setRefused(isDue()));
      setRefused(false);
    } catch {
      setRefused(isDue());
    }
  }
  createEffect(() => void (wanted() ? ask() : lock?.release()));
  onCleanup(listen(document, ["visibilitychange"], () => void ask()));
  onCleanup(onTap(window, () => void (isRefused() && ask())));
  onCleanup(() => {
    isGone = true;
    void lock?.release();
  });
  return () => (wanted() && isRefused() ? "refused" : undefined);
}
