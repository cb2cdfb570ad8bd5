/**
 * Keeps the phone's own files, so that a reload without a connection still opens the page. What the kitchen says is
 * never kept here: only the page, its scripts, styles and type. Runs on secure pages only (browsers allow it nowhere else).
 */
interface WorkerEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface WorkerFetchEvent extends WorkerEvent {
  readonly request: Request;
  respondWith(response: Promise<Response>): void;
}
interface Worker extends EventTarget {
  readonly location: Location;
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
}

const worker = globalThis as unknown as Worker;
const SHELL = "shell-1";
const PAGE = "/phone/";
/** A script that another loads when it is wanted, such as a language. */
const LOADED = /["'`]\.\/([\w.-]+\.js)["'`]/g;
const ASSET = /\/assets\/[\w.-]+/g;

/** The page, what it names, and what that names: type named by styles, languages by scripts. */
async function keepShell(): Promise<void> {
  const cache = await caches.open(SHELL);
  const page = await fetch(PAGE, { cache: "no-store" });
  if (!page.ok) throw new Error(`the page answered ${page.status}`);
  const named = new Set((await page.clone().text()).match(ASSET));
  await cache.put(PAGE, page);
  for (const path of named) {
    const asset = await fetch(path);
    if (path.endsWith(".css"))
      for (const inner of (await asset.clone().text()).match(ASSET) ?? []) named.add(inner);
    if (path.endsWith(".js"))
      for (const [, inner] of (await asset.clone().text()).matchAll(LOADED)) named.add(`/assets/${inner}`);
    await cache.put(path, asset);
  }
  for (const kept of await cache.keys()) {
    const { pathname } = new URL(kept.url);
    if (pathname !== PAGE && !named.has(pathname)) await cache.delete(kept);
  }
}

/** The page from the network, then kept anew; from what was kept when there is none. */
async function page(request: Request): Promise<Response> {
  try {
    const fresh = await fetch(request);
    if (fresh.ok) void keepShell().catch(() => undefined);
    return fresh;
  } catch (error) {
    const kept = await caches.match(PAGE);
    if (kept === undefined) throw error;
    return kept;
  }
}

/** Files named by their content never change: kept ones are as good as new. */
const asset = async (request: Request): Promise<Response> => (await caches.match(request)) ?? fetch(request);

worker.addEventListener("install", (event) =>
  (event as WorkerEvent).waitUntil(keepShell().then(() => worker.skipWaiting())),
);
worker.addEventListener("activate", (event) => (event as WorkerEvent).waitUntil(worker.clients.claim()));
worker.addEventListener("fetch", (event) => {
  const fetched = event as WorkerFetchEvent;
  const { request } = fetched;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== worker.location.origin) return;
  if (request.mode === "navigate" && pathname === PAGE) fetched.respondWith(page(request));
  else if (pathname.startsWith("/assets/")) fetched.respondWith(asset(request));
});
