import { readFileSync } from "node:fs";
import { wcagContrast } from "culori";
import { describe, expect, it } from "vitest";

const css = readFileSync(
  new URL("../../shared/client/screen/tokens.css", import.meta.url),
  "utf8",
).replaceAll(/\/\*.*?\*\//gs, "");

/** The colours of one theme: night's stand over day's. */
function tokens(theme: "day" | "night"): Record<string, string> {
  const blocks = [...css.matchAll(/([^{}]+)\{([^{}]*)\}/g)].map(([, selector = "", body = ""]) => ({
    selector,
    body,
  }));
  const wanted = blocks.filter(({ selector }) => !selector.includes("night") || theme === "night");
  return Object.fromEntries(
    wanted.flatMap(({ body }) =>
      [...body.matchAll(/--([\w-]+):\s*(#[\da-f]{6})/gi)].map(([, name = "", hex = ""]) => [name, hex]),
    ),
  );
}

const sheet = (name: string): string =>
  readFileSync(new URL(`../../phone/styles/${name}.css`, import.meta.url), "utf8");
const families = sheet("families");
const rooms = ["cards", "alerts", "tray", "heat", "frame"].map(sheet).join("\n");

const declared = (body: string): (readonly [string, string])[] =>
  [...body.matchAll(/([\w-]+):\s*([^;]+);/g)].map(([, name = "", value = ""]) => [name, value]);

/** What the phone's sheets set for one class, by property: its families weigh nothing, so its own rules come after. */
function styleOf(name: string): Record<string, string> {
  const ofFamilies = [...families.matchAll(/((?::where\([^{}]*\),?\s+)+)\{([^{}]*)\}/g)].flatMap(
    ([, selectors = "", body = ""]) =>
      selectors.split(/[,()]/).some((selector) => selector.trim() === name) ? declared(body) : [],
  );
  const own = rooms.split(`\n${name} {`).slice(1);
  return Object.fromEntries([...ofFamilies, ...own.flatMap((rest) => declared(rest.split(/[{}]/)[0] ?? ""))]);
}

describe("on the phone's heat screen, whose own ink is white", () => {
  // Each lies there on a card's ground, which is white by day.
  it.each([".hot", ".first-aid", ".cautions", ".lost-bar", ".refusal", ".alert"])(
    "%s names its ground and its ink",
    (name) => {
      const { background, color } = styleOf(name);
      expect(background).toMatch(/^var\(--(card|warm-stripes)\)$/);
      expect(color).toMatch(/^var\(--(ink|short)\)$/);
    },
  );
  it("a hot thing's stripes are a card's ground and a warm one", () => {
    expect(sheet("base")).toMatch(/--warm-stripes: [^;]*var\(--card\)[^;]*var\(--warm\)[^;]*;/);
  });
});

/** Text on its ground, as display/*.css pair them. WCAG 2.x, 1.4.6: 7 : 1 for what must be read across the room. */
const READ_ACROSS = [
  ["ink", "ground"],
  ["ink", "card"],
  ["on-deep", "deep"],
  ["on-ember", "ember"],
  ["on-ember", "ember-deep"],
  ["ink", "wet-from"],
  ["ink", "wet-to"],
  ["ink", "warm"],
  ["ink", "lavender"],
  ["ink", "oat"],
  ["ink-soft", "ground"],
  ["short", "card"],
  ["ground", "ink"],
] as const;

/** Secondary text near by: 4.5 : 1 (1.4.3). Stale tiles are hatched in ground and track. */
const READ_NEARBY = [
  ["on-deep-soft", "deep"],
  ["ink-soft", "card"],
  ["ink-soft", "track"],
] as const;

/** Shapes that carry meaning: 3 : 1 (1.4.11). */
const MARKS = [
  ["deep-text", "ground"],
  ["ember-text", "ground"],
  ["deep-text", "track"],
  ["short", "ground"],
] as const;

describe.each(["day", "night"] as const)("colours by %s", (theme) => {
  const of = tokens(theme);
  const contrast = ([text, ground]: readonly [string, string]): number =>
    wcagContrast(of[text]!, of[ground]!);
  it.each(READ_ACROSS)("%s on %s is at least 7 : 1", (...pair) => {
    expect(contrast(pair)).toBeGreaterThanOrEqual(7);
  });
  it.each(READ_NEARBY)("%s on %s is at least 4.5 : 1", (...pair) => {
    expect(contrast(pair)).toBeGreaterThanOrEqual(4.5);
  });
  it.each(MARKS)("%s on %s is at least 3 : 1", (...pair) => {
    expect(contrast(pair)).toBeGreaterThanOrEqual(3);
  });
});
