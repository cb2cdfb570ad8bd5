import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { chromium } from "playwright";
import { installPackages, succeeds } from "./install-packages.ts";

const INSTALLED = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
];

/** Playwright's own browser, fetched if it can be. */
function fetched(): string | undefined {
  const cli = join(dirname(createRequire(import.meta.url).resolve("playwright/package.json")), "cli.js");
  const path = chromium.executablePath();
  if (!existsSync(path)) succeeds(process.execPath, cli, "install", "chromium");
  return existsSync(path) ? path : undefined;
}

/** The system's package, where this process may install one. */
function installed(): string | undefined {
  const path = "/usr/bin/chromium";
  return installPackages("--no-install-recommends", "chromium") && existsSync(path) ? path : undefined;
}

/** A Chromium to test the screens with: the one named, one that is there, or one fetched. Throws, in words, without. */
export function findBrowser(named: string | undefined): string {
  if (named !== undefined && !existsSync(named)) throw new Error(`TRAYTIDE_BROWSER names no file: ${named}`);
  const found = named ?? INSTALLED.find((path) => existsSync(path)) ?? fetched() ?? installed();
  if (found !== undefined) return found;
  throw new Error(
    "There is no browser to test the screens with. Install Chromium or Chrome, or name one: TRAYTIDE_BROWSER=/path/to/chromium npm test",
  );
}
