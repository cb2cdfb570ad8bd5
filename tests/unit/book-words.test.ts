import { describe, expect, it } from "vitest";
import { type Evidence, learn } from "#shared/drying/uncertainty/learning.ts";
import { type BookRow, bookRows, paceOf } from "#shared/kitchen/calibration/book.ts";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";
import { aKitchen } from "../support/scene.ts";

const compared = (
  ratio: number,
  lowRatio: number,
  highRatio: number,
  more: Partial<BookRow> = {},
): BookRow => ({
  key: "skin/kitchen/",
  of: "kitchen",
  quantity: "skin",
  ratio,
  lowRatio,
  highRatio,
  tests: 14,
  ...paceOf({ ratio, lowRatio, highRatio }),
  ...more,
});
const [words, palabras] = [english("metric", "UTC").book, spanish("metric", "UTC").book];
/** Spaces before a unit do not break: they read as spaces. */
const said = (row: BookRow, { row: say } = words): string => say(row).replaceAll("\u00A0", " ");

describe("the kitchen beside the book, in words", () => {
  it("slower and quicker with their range; the way is named again only where the range crosses over", () => {
    expect(said(compared(1.2, 1.05, 1.38))).toBe(
      "skins 20 % slower than the model's start (5–38 %); 14 films",
    );
    expect(said(compared(0.8, 0.7, 0.95, { tests: 1, quantity: "dryThrough" }))).toBe(
      "dries through 20 % quicker than the model's start (5–30 %); 1 film",
    );
    expect(said(compared(1.08, 0.94, 1.22, { of: "icing" }))).toBe(
      "8 % slower (6 % quicker to 22 % slower); 14 films",
    );
  });

  it("in Spanish", () => {
    expect(said(compared(1.2, 1.05, 1.38), palabras)).toBe(
      "forma costra 20 % más lento que el modelo inicial (5–38 %); 14 capas",
    );
    expect(said(compared(1.08, 0.94, 1.22, { of: "icing" }), palabras)).toBe(
      "8 % más lento (de 6 % más rápido a 22 % más lento); 14 capas",
    );
  });

  it("hardly any difference is none, and how sure that is, is said", () => {
    expect(said(compared(1.01, 0.9, 1.12))).toBe(
      "skins about the same as the model's start (10 % quicker to 12 % slower); 14 films",
    );
    expect(said(compared(1.02, 1.01, 1.04, { of: "place" }))).toBe("much the same (1–4 % slower); 14 films");
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
    expect(rows.map((row) => [row.of, row.name, row.tests])).toEqual([
      ["kitchen", undefined, 4],
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
