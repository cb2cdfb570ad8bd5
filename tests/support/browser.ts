import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright";
import { findBrowser } from "./find-browser.ts";

/** A name that leads here and is, as an address on a kitchen's own network, no secure context. */
export const KITCHEN_HOST = "kitchen.test";

export const PHONE = { width: 390, height: 844 } as const;
export const SMALL_PHONE = { width: 320, height: 640 } as const;
export const DESK = { width: 1440, height: 900 } as const;
export const WALL = { width: 1920, height: 1080 } as const;
export const LARGE_WALL = { width: 3840, height: 2160 } as const;
export type Size = { readonly width: number; readonly height: number };

const ARGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--no-first-run",
  `--host-resolver-rules=MAP ${KITCHEN_HOST} 127.0.0.1`,
];

export const launchBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: findBrowser(process.env["TRAYTIDE_BROWSER"]), args: ARGS });

/** A page in a browser profile of its own, as on a device of its own. */
export interface Screen {
  page: Page;
  context: BrowserContext;
  /** Errors that the page threw or told its console, broken content rules among them. */
  complaints: string[];
}

type Kept = Awaited<ReturnType<BrowserContext["storageState"]>>;

/** `kept` is what an earlier screen had stored. */
export async function openScreen(
  browser: Browser,
  size: Size,
  isPhone: boolean,
  kept?: Kept,
): Promise<Screen> {
  const context = await browser.newContext({
    viewport: size,
    ...(isPhone && { hasTouch: true, isMobile: true }),
    locale: "en-GB",
    timezoneId: "Europe/Lisbon",
    ...(kept !== undefined && { storageState: kept }),
  });
  const complaints: string[] = [];
  context.on("page", (page) => {
    page.on("pageerror", (error) => complaints.push(error.message));
    page.on("console", (message) => {
      if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
    });
  });
  context.setDefaultTimeout(20_000);
  return { page: await context.newPage(), context, complaints };
}

/** To another screen of a phone that is open. */
export const goTo = (page: Page, path: string): Promise<void> =>
  page.evaluate((hash) => void (location.hash = hash), `/${path}`);

/** Pictures of what every page shows, in a folder under the system's temporary one. */
export async function takePictures(pages: readonly Page[], of: string): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), "traytide-failed-"));
  const name = of.replaceAll(/\W+/g, "-").slice(0, 60);
  await Promise.allSettled(
    pages.map((page, k) => page.screenshot({ path: join(folder, `${name}-${k + 1}.png`), timeout: 5000 })),
  );
  return folder;
}
