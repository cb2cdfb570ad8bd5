import { existsSync } from "node:fs";
import { installPackages } from "../install-packages.ts";
import { type Engine, type EngineName, ENGINES } from "./engine.ts";
import type { WebKitPaths } from "./webkit.ts";

/** Debian's packages beside Chromium's; named as well in what is said of an engine that is missing. */
const PACKAGES: Readonly<Record<Exclude<EngineName, "chromium">, readonly string[]>> = {
  webkit: ["webkit2gtk-driver", "xvfb"],
  firefox: ["firefox-esr"],
};

const first = (...paths: readonly (string | undefined)[]): string | undefined =>
  paths.find((path) => path !== undefined && existsSync(path));

function webKit(): WebKitPaths | undefined {
  const driver = first(process.env["TRAYTIDE_WEBKIT_DRIVER"], "/usr/bin/WebKitWebDriver");
  const display = first("/usr/bin/Xvfb");
  const browser = first(process.env["TRAYTIDE_WEBKIT_BROWSER"], ...MINI_BROWSERS);
  if (driver === undefined || display === undefined || browser === undefined) return undefined;
  return { driver, browser, display };
}

/** Where Debian, Fedora and their kin keep it. */
const MINI_BROWSERS = ["lib/x86_64-linux-gnu", "lib/aarch64-linux-gnu", "libexec"].flatMap((folder) =>
  ["webkit2gtk-4.1", "webkit2gtk-4.0", "webkitgtk-6.0"].map((name) => `/usr/${folder}/${name}/MiniBrowser`),
);

const firefox = (): string | undefined =>
  first(
    process.env["TRAYTIDE_FIREFOX"],
    "/usr/bin/firefox-esr",
    "/usr/bin/firefox",
    "/Applications/Firefox.app/Contents/MacOS/firefox",
    "C:\\Program Files\\Mozilla Firefox\\firefox.exe",
  );

/** Each brings a library of its own: loaded only where that engine is opened. */
const openers: Readonly<Record<EngineName, () => (() => Promise<Engine>) | undefined>> = {
  chromium: () => async () => (await import("./chromium.ts")).openChromium(),
  webkit() {
    const paths = webKit();
    return paths && (async () => (await import("./webkit.ts")).openWebKit(paths));
  },
  firefox() {
    const path = firefox();
    return path === undefined ? undefined : async () => (await import("./firefox.ts")).openFirefox(path);
  },
};

export interface FoundEngines {
  found: readonly { name: EngineName; open: () => Promise<Engine> }[];
  missing: readonly EngineName[];
  /** Whether one that is missing is a failure: someone asked for it by name, or for all. */
  mustBeThere: boolean;
}

/** The engines on this machine. `asked` is "all", or some of their names with commas between them; without it, those there are. */
export function findEngines(asked: string | undefined): FoundEngines {
  const names = asked === undefined || asked === "all" ? ENGINES : asked.split(",").map(named);
  const looked = names.map((name) => ({ name, open: openers[name]() }));
  return {
    found: looked.flatMap(({ name, open }) => (open === undefined ? [] : [{ name, open }])),
    missing: looked.flatMap(({ name, open }) => (open === undefined ? [name] : [])),
    mustBeThere: asked !== undefined,
  };
}

function named(word: string): EngineName {
  const name = ENGINES.find((one) => one === word.trim());
  if (name === undefined)
    throw new Error(`TRAYTIDE_ENGINES names no engine: ${word}. There are all, ${ENGINES.join(", ")}`);
  return name;
}

/** Tries once to install what is missing; a line on each engine that still is. */
export function installEngines(asked: string | undefined): string[] {
  const packages = packagesOf(findEngines(asked).missing);
  if (packages.length > 0) installPackages(...packages);
  return findEngines(asked).missing.map(installHint);
}

export const installHint = (name: EngineName): string =>
  `Not tested in ${name}: install ${packagesOf([name]).join(" and ")} (Debian's names)`;

const packagesOf = (names: readonly EngineName[]): string[] =>
  names.flatMap((name) => (name === "chromium" ? [] : PACKAGES[name]));
