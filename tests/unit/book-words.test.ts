import { describe, expect, it } from "vitest";
import { type Comparison, type Evidence, learn } from "#shared/drying/uncertainty/learning.ts";
import { bookRows, comparisonWords, shortWords } from "#shared/words/book.ts";
import { aKitchen } from "../support/scene.ts";

const compared = (ratio: number, lowRatio: number, highRatio: number, tests = 14): Comparison => ({
  quantity: "skin",
  group: {},
  ratio,
  lowRatio,
  highRatio,
  tests,
});
/** Spaces before a unit do not break: they read as spaces. */
const said = (words: string): string => words.replaceAll("\u00A0", " ");

describe("the kitchen beside the book, in words", () => {
  it("slower and quicker with their range; the way is named again only where the range crosses over", () => {
    expect(said(comparisonWords(compared(1.2, 1.05, 1.38)))).toBe(
      "skins 20 % slower than the model's start (5–38 %); 14 films",
    );
    expect(said(comparisonWords({ ...compared(0.8, 0.7, 0.95, 1), quantity: "dryThrough" }))).toBe(
      "dries through 20 % quicker than the model's start (5–30 %); 1 film",
    );
    expect(said(shortWords(compared(1.08, 0.94, 1.22)))).toBe(
      "8 % slower (6 % quicker to 22 % slower); 14 films",
    );
  });

  it("hardly any difference is none, and how sure that is, is said", () => {
    expect(said(comparisonWords(compared(1.01, 0.9, 1.12)))).toBe(
      "skins about as the model's start (10 % quicker to 12 % slower); 14 films",
    );
    expect(said(shortWords(compared(1.02, 1.01, 1.04)))).toBe("much the same (1–4 % slower); 14 films");
  });
});

describe("rows", () => {
  const slow = (icing: string, place: string): Evidence => ({
    quantity: "skin",
    icing,
    place,
    lnLow: Math.log(1.25),
    lnHigh: Math.log(1.35),
  });
  const evidence = [
    slow("storm", "rack-a"),
    slow("butter", "rack-a"),
    slow("storm", "fan"),
    slow("gone", "fan"),
  ];

  it("D12 the kitchen first, then icings and places, the most tested first; what was removed is left out", () => {
    const rows = bookRows(aKitchen().kitchen, learn(evidence));
    expect(rows.map(({ of, name, tests }) => [of, name, tests])).toEqual([
      ["kitchen", "This kitchen", 4],
      ["icing", "storm", 2],
      ["icing", "butter", 1],
      ["place", "Fan rack", 2],
      ["place", "Rack A", 2],
    ]);
    for (const { ratio, lowRatio, highRatio } of rows) {
      expect(ratio).toBeGreaterThan(1);
      expect(lowRatio).toBeLessThan(ratio);
      expect(highRatio).toBeGreaterThan(ratio);
    }
  });

  it("nothing found, nothing said", () => {
    expect(bookRows(aKitchen().kitchen, learn([]))).toEqual([]);
  });
});
