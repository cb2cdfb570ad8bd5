import { describe, expect, it } from "vitest";
import { type Evidence, learn } from "#shared/drying/uncertainty/learning.ts";
import { bookLine, type BookRow, bookRows, paceOf } from "#shared/kitchen/calibration/book.ts";
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
    expect(said(compared(1.2, 1.05, 1.38))).toBe("skins 20 % slower than the book (5–38 %); 14 films");
    expect(said(compared(0.8, 0.7, 0.95, { tests: 1, quantity: "dryThrough" }))).toBe(
      "dries through 20 % quicker than the book (5–30 %); 1 film",
    );
    expect(said(compared(1.08, 0.94, 1.22, { of: "icing" }))).toBe(
      "8 % slower (6 % quicker to 22 % slower); 14 films",
    );
  });

  it("in Spanish", () => {
    expect(said(compared(1.2, 1.05, 1.38), palabras)).toBe(
      "forma costra 20 % más lento que el libro (5–38 %); 14 capas",
    );
    expect(said(compared(1.08, 0.94, 1.22, { of: "icing" }), palabras)).toBe(
      "8 % más lento (de 6 % más rápido a 22 % más lento); 14 capas",
    );
  });

  it("hardly any difference is none, and how sure that is, is said", () => {
    expect(said(compared(1.01, 0.9, 1.12))).toBe(
      "skins about the same as the book (10 % quicker to 12 % slower); 14 films",
    );
    expect(said(compared(1.02, 1.01, 1.04, { of: "place" }))).toBe("much the same (1–4 % slower); 14 films");
  });
});

describe("D42 the kitchen in one line", () => {
  const row = compared(1.05, 0.98, 1.12);
  const lineOf = (score: { films: number; inside: number }, rows = [row], words_ = words): string =>
    words_.line(bookLine("skin", rows, score)).replaceAll("\u00A0", " ");

  it("D42 says how floods dry beside the book, and how often the board was right", () => {
    expect(lineOf({ films: 40, inside: 33.6 })).toBe(
      "Floods here skin 5 % slower than the book; the board was right 34 times in 40.",
    );
    expect(lineOf({ films: 1, inside: 1 }, [compared(1.01, 0.9, 1.1)])).toBe(
      "Floods here skin about as the book says; the board was right 1 time in 1.",
    );
    expect(lineOf({ films: 0, inside: 0 })).toBe(
      "Floods here skin 5 % slower than the book; no forecast was checked by touch yet.",
    );
    expect(lineOf({ films: 0, inside: 0 }, [])).toBe(
      "How floods dry here is not known yet: each touch test teaches.",
    );
  });

  it("D42 in Spanish", () => {
    expect(lineOf({ films: 40, inside: 33.6 }, [row], palabras)).toBe(
      "Aquí los rellenos forman costra 5 % más lento que el libro; el tablero acertó 34 veces de 40.",
    );
  });
});

describe("rows", () => {
  it("D38 a kind of heat has a row of its own, and none in the kitchen's", () => {
    const heated = {
      quantity: "skin",
      icing: "white",
      place: "rack-a",
      lnLow: 0.3,
      lnHigh: 0.4,
      heat: "oven",
    } as const;
    const rows = bookRows(aKitchen().kitchen, learn([heated]));
    expect(rows.map(({ of, heat }) => [of, heat])).toContainEqual(["heat", "oven"]);
    expect(rows.find(({ of }) => of === "kitchen")).toBeUndefined();
    expect(words.name(rows.find(({ of }) => of === "heat")!)).toBe("Oven");
  });

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
