import { expect, it } from "vitest";
import { findEngines, installHint } from "../support/engines/find-engines.ts";

const namesOf = (asked: string | undefined): string[] => {
  const { found, missing } = findEngines(asked);
  return [...found.map(({ name }) => name), ...missing].toSorted();
};

it("looks for every engine, and only what was asked for must be there", () => {
  expect(namesOf(undefined)).toEqual(["chromium", "firefox", "webkit"]);
  expect(findEngines(undefined).mustBeThere).toBe(false);
  expect(namesOf("all")).toEqual(["chromium", "firefox", "webkit"]);
  expect(findEngines("all").mustBeThere).toBe(true);
  expect(namesOf("webkit, firefox")).toEqual(["firefox", "webkit"]);
  expect(findEngines("webkit, firefox").mustBeThere).toBe(true);
});

it("an engine there is not is an error that names those there are", () => {
  expect(() => findEngines("webkit,lynx")).toThrow(
    "TRAYTIDE_ENGINES names no engine: lynx. There are all, chromium, webkit, firefox",
  );
});

it("of a missing engine it is said what to install", () => {
  expect(installHint("webkit")).toBe(
    "Not tested in webkit: install webkit2gtk-driver and xvfb (Debian's names)",
  );
  expect(installHint("firefox")).toBe("Not tested in firefox: install firefox-esr (Debian's names)");
});
