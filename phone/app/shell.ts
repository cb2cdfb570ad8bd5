/**
 * Lets a service worker keep the page's own files, so that a reload works without a connection. Only a secure page may:
 * on plain http a reload needs the server.
 */
export function registerShell(navigator: Navigator, isBuilt: boolean): void {
  if (!isBuilt || !("serviceWorker" in navigator)) return;
  // A browser that refuses (private window, storage full) leaves the page as it is without one.
  navigator.serviceWorker.register("/phone/sw.js", { scope: "/phone/" }).catch(() => undefined);
}
