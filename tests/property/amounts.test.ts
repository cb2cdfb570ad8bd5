import * as fc from "fast-check";
import { expect, test } from "vitest";
import { english } from "#shared/words/en/index.ts";
import { inchesToMm, mmToInches, parseAmount } from "#shared/units.ts";

/** Whole inches and sixteenths. */
const inSixteenths = fc.tuple(fc.nat({ max: 60 }), fc.integer({ min: 1, max: 15 }));

test("a length written as a fraction, a mixed number or a decimal, with a point or a comma, is the same length", () => {
  fc.assert(
    fc.property(inSixteenths, ([whole, top]) => {
      const value = whole + top / 16;
      const written = [
        `${whole} ${top}/16`,
        `${whole}-${top}/16`,
        `${whole} ${top * 2}/32`,
        `${whole * 16 + top}/16`,
        value.toFixed(4),
        // Three figures after a comma could be thousands.
        value.toFixed(4).replace(".", ","),
      ];
      expect(written.map(parseAmount)).toEqual(written.map(() => value));
    }),
  );
});

test("what a screen shows of a length can be typed in again", () => {
  fc.assert(
    fc.property(inSixteenths, ([whole, top]) => {
      const lengthMm = inchesToMm(whole + top / 16);
      const [shown = ""] = english("us", "UTC").format.length(lengthMm).split(" in");
      expect(parseAmount(shown)).toBeCloseTo(mmToInches(lengthMm), 9);
    }),
  );
});

test("any text is an amount or none, and never throws", () => {
  fc.assert(
    fc.property(fc.string({ unit: "grapheme", maxLength: 40 }), (text) => {
      const value = parseAmount(text);
      expect(value === undefined || Number.isFinite(value)).toBe(true);
    }),
  );
});
