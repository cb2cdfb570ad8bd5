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

const styles = ["tray", "heat", "frame"]
  .map((name) => readFileSync(new URL(`../../phone/styles/${name}.css`, import.meta.url), "utf8"))
  .join("\n");

/** What one rule of the phone's sheets sets, by property. */
const ruleOf = (selector: string): Record<string, string> => {
  const at = styles.indexOf(`\n${selector} {`);
  const body = at < 0 ? "" : styles.slice(styles.indexOf("{", at) + 1, styles.indexOf("}", at));
  return Object.fromEntries(
    [...body.matchAll(/([\w-]+):\s*([^;]+);/g)].map(([, name, value]) => [name, value]),
  );
};

describe("on the phone's heat screen, whose own ink is white", () => {
  // Each lies there on a card's ground, which is white by day.
  it.each([".hot", ".first-aid", ".cautions"])("%s names its ground and its ink", (selector) => {
    expect(ruleOf(selector)["background"]).toMatch(/var\(--card\)/);
    expect(ruleOf(selector)["color"]).toMatch(/^var\(--(ink|short)\)$/);
  });
  it.each([".lost-bar", ".refusal", '.alert:not([data-class="urgent"])'])(
    "%s is given its ink",
    (selector) => {
      expect(ruleOf(`.phone[data-ember="true"] ${selector}`)["color"]).toBe("var(--ink)");
    },
  );
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
