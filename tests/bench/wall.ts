import { fileURLToPath, pathToFileURL } from "node:url";
import type { CDPSession } from "playwright";
import { createServer } from "vite";
import solid from "vite-plugin-solid";
import { launchBrowser, WALL } from "../support/browser.ts";
import type { WallPage } from "./wall-page.tsx";

const TIMES = 40;

/** The browser's main thread, ms for one of them: script, style, layout and what else there is to do. */
export interface WallBench {
  trays: number;
  /** A second of the clock. */
  tickMs: number;
  /** The same with 300 cookies drawn over it. */
  drawnTickMs: number;
  /** One tray's change. */
  patchMs: number;
  /** The yardstick in the same page: 300 plain cards that each write their label. */
  naiveTickMs: number;
  /** The tick in parts of the yardstick. */
  ratio: number;
}

/** The wall with 300 trays in Chromium: what a tick costs beside what it would cost drawn plainly. */
export async function benchWall(): Promise<WallBench> {
  const root = fileURLToPath(new URL("../..", import.meta.url));
  const vite = await createServer({
    root,
    configFile: false,
    cacheDir: `${root}/.vite/bench`,
    plugins: [solid()],
    server: { port: 0, hmr: false, watch: null },
    logLevel: "error",
  });
  await vite.listen();
  const browser = await launchBrowser();
  try {
    const page = await browser.newPage({ viewport: WALL });
    const address = vite.resolvedUrls?.local[0] ?? "";
    await page.goto(`${address}tests/bench/wall-page.html`, { timeout: 120_000 });
    await page.waitForFunction(() => "wallPage" in globalThis, undefined, { timeout: 120_000 });
    const devtools = await page.context().newCDPSession(page);
    await devtools.send("Performance.enable");
    const cost = async (act: keyof WallPage): Promise<number> => {
      await page.evaluate(run, { act, times: 5 });
      const before = await taskMs(devtools);
      await page.evaluate(run, { act, times: TIMES });
      return ((await taskMs(devtools)) - before) / TIMES;
    };
    const naiveTickMs = await cost("naive");
    const patchMs = await cost("patch");
    // The first ticks of a page are dearer than those that follow.
    await cost("tick");
    const tickMs = await cost("tick");
    await page.evaluate(() => (globalThis as unknown as { wallPage: WallPage }).wallPage.drawCookies());
    const drawnTickMs = await cost("tick");
    return { trays: 300, tickMs, drawnTickMs, patchMs, naiveTickMs, ratio: tickMs / naiveTickMs };
  } finally {
    await browser.close();
    await vite.close();
  }
}

/** Does it again and again, each time drawn before the next. Runs in the page. */
async function run({ act, times }: { act: keyof WallPage; times: number }): Promise<void> {
  const { wallPage } = globalThis as unknown as { wallPage: WallPage };
  for (let k = 0; k < times; k += 1) {
    wallPage[act]();
    await new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn, 0)));
  }
}

async function taskMs(devtools: CDPSession): Promise<number> {
  const { metrics } = await devtools.send("Performance.getMetrics");
  return (metrics.find(({ name }) => name === "TaskDuration")?.value ?? 0) * 1000;
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
  console.log(JSON.stringify(await benchWall(), undefined, 2));
