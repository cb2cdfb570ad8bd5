import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { Browser } from "playwright";
import { build, preview } from "vite";
import solid from "vite-plugin-solid";
import { KITCHEN_HOST, launchBrowser, openScreen, PHONE } from "../support/browser.ts";
import { roomCommands } from "../support/browser-room.ts";
import { firstScripts, gzippedBytes } from "../support/first-screen.ts";
import { startProcess } from "../support/server-process.ts";

/** A phone a quarter as fast as the machine. */
const SLOWER = 4;
const TIMES = 5;

/** From the address to a tray that can be tapped on a board that is live: nothing kept but who this is, medians. */
export interface PhoneBench {
  /** What the first screen loads, gzipped, by language. */
  scriptBytes: { en: number; es: number };
  opened: {
    trays: number;
    ms: number;
    /** The processor time of the page's main thread until then. */
    threadMs: number;
  }[];
  /** The same of an empty page of the same framework. */
  emptyMs: number;
  emptyThreadMs: number;
}

export async function benchPhone(): Promise<PhoneBench> {
  const browser = await launchBrowser();
  try {
    const empty = await emptyPage(browser);
    const opened: PhoneBench["opened"] = [];
    for (const trays of [30, 300]) opened.push({ trays, ...(await phoneOf(browser, trays)) });
    return {
      scriptBytes: {
        en: gzippedBytes(firstScripts("phone", "en")),
        es: gzippedBytes(firstScripts("phone", "es")),
      },
      opened,
      emptyMs: empty.ms,
      emptyThreadMs: empty.threadMs,
    };
  } finally {
    await browser.close();
  }
}

interface Opened {
  ms: number;
  threadMs: number;
}

async function emptyPage(browser: Browser): Promise<Opened> {
  const folder = mkdtempSync(join(tmpdir(), "traytide-empty-"));
  const options = {
    root: fileURLToPath(new URL(".", import.meta.url)),
    configFile: false as const,
    logLevel: "error" as const,
    build: {
      outDir: folder,
      rolldownOptions: { input: fileURLToPath(new URL("empty-page.html", import.meta.url)) },
    },
  };
  await build({ ...options, plugins: [solid()] });
  const server = await preview({ ...options, preview: { port: 0 } });
  try {
    return await opening(browser, `${server.resolvedUrls?.local[0] ?? ""}empty-page.html`, {});
  } finally {
    await server.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function phoneOf(browser: Browser, trays: number): Promise<Opened> {
  const folder = mkdtempSync(join(tmpdir(), "traytide-bench-"));
  const server = await startProcess(folder, {
    env: { NODE_ENV: "production", TRAYTIDE_HOSTS: KITCHEN_HOST },
  });
  try {
    const session = { ...(await server.join("Ida")), name: "Ida" };
    for (const [k, command] of roomCommands(trays, Date.now()).entries())
      await server.command(session.token, { commandId: `bench-${k}`, ...command });
    return await opening(browser, `http://${KITCHEN_HOST}:${server.port}/phone/`, {
      "traytide.session": JSON.stringify(session),
    });
  } finally {
    await server.end("SIGKILL");
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The median of a few openings, each in a profile of its own. */
async function opening(browser: Browser, address: string, kept: Record<string, string>): Promise<Opened> {
  const each: Opened[] = [];
  for (let k = 0; k <= TIMES; k += 1) {
    const { origin } = new URL(address);
    const localStorage = Object.entries(kept).map(([name, value]) => ({ name, value }));
    const { page, context } = await openScreen(browser, PHONE, true, {
      cookies: [],
      origins: [{ origin, localStorage }],
    });
    const devtools = await context.newCDPSession(page);
    await devtools.send("Performance.enable", { timeDomain: "threadTicks" });
    await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
    await page.addInitScript(NOTE_USABLE);
    await page.goto(address, { waitUntil: "commit" });
    const ms = await page.waitForFunction(() => (globalThis as { usableMs?: number }).usableMs, undefined, {
      polling: 20,
      timeout: 120_000,
    });
    const { metrics } = await devtools.send("Performance.getMetrics");
    const threadMs = (metrics.find(({ name }) => name === "TaskDuration")?.value ?? 0) * 1000;
    // The first page of a browser is dearer than those that follow.
    if (k > 0) each.push({ ms: (await ms.jsonValue()) ?? NaN, threadMs });
    await context.close();
  }
  const median = (of: (one: Opened) => number): number => each.map(of).toSorted((a, b) => a - b)[TIMES >> 1]!;
  return { ms: median(({ ms }) => ms), threadMs: median(({ threadMs }) => threadMs) };
}

/** Notes when a tray can be tapped on a page that is live, or has nothing to say of that: painted, and ready for what comes next. */
const NOTE_USABLE = `requestAnimationFrame(function look() {
  const isLive = document.querySelector(".status")?.getAttribute("data-live") !== "false";
  if (!isLive || document.querySelector("a.tray-card") === null) return requestAnimationFrame(look);
  requestAnimationFrame(() => setTimeout(() => { globalThis.usableMs = performance.now(); }, 0));
});`;

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
  console.log(JSON.stringify(await benchPhone(), undefined, 2));
