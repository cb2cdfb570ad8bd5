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
