import { describe, expect, test } from "vitest";
import { floodedAreaMm2, floodVolumeMl } from "#shared/icing/quantities.ts";
import { ovalShape, rectangleShape, roundShape } from "#shared/icing/outline-shape.ts";
import { recipeWaterPct, BASE_RECIPES, teaspoonsACup, WATER_PCT } from "#shared/icing/water.ts";
import { CUP_ML, INCH_MM, inchesToMm, TBSP_ML, TSP_ML } from "#shared/units.ts";

describe("I2 US measures are exact (NIST SP 811 appendix B, SP 430)", () => {
  test("cup 236.5882365 mL, tablespoon 14.78676478125 mL, teaspoon 4.92892159375 mL, inch 25.4 mm", () => {
    expect(CUP_ML).toBe(236.5882365);
    expect(TBSP_ML).toBe(14.78676478125);
    expect(TSP_ML).toBe(4.92892159375);
    expect(INCH_MM).toBe(25.4);
  });

  test("a gallon of 231 cubic inches is 16 cups, a cup 16 tablespoons or 48 teaspoons", () => {
    expect((231 * 2.54 ** 3) / 16).toBeCloseTo(CUP_ML, 9);
    expect(16 * TBSP_ML).toBeCloseTo(CUP_ML, 9);
    expect(48 * TSP_ML).toBeCloseTo(CUP_ML, 9);
  });
});

describe("I1 flooded area inside a margin (Steiner's formula)", () => {
  test("a circle is exact: π(r − m)²", () => {
    for (const [diameterMm, marginMm] of [
      [63.5, 6.35],
      [90, 3],
      [40, 19.9],
    ] as const)
      expect(floodedAreaMm2(roundShape(diameterMm), marginMm)).toBeCloseTo(
        Math.PI * (diameterMm / 2 - marginMm) ** 2,
        9,
      );
  });

  // The true inner square is (a − 2m)²; Steiner rounds the corners of what is taken off: (4 − π) m² low.
  test("a square is low by its corners only", () => {
    const exactMm2 = (80 - 2 * 4) ** 2;
    expect(floodedAreaMm2(rectangleShape(80, 80), 4)).toBeCloseTo(exactMm2 - (4 - Math.PI) * 4 ** 2, 9);
    expect(floodedAreaMm2(rectangleShape(80, 80), 4) / exactMm2).toBeGreaterThan(0.997);
  });

  // Perimeter of the ellipse with semi-axes 2 and 1: 9.68844822 (complete elliptic integral, 8 E(√3/2)).
  test("an oval's perimeter", () => {
    expect(ovalShape(4, 2).perimeterMm).toBeCloseTo(9.688448, 3);
  });
});

describe("common practice, no source", () => {
  // 2½ in round, flooded to ¼ in from its edge: 25.4 mm radius, 2027 mm². A teaspoon over it is 2.43 mm deep.
  test("about one teaspoon floods a 2½ in round to ¼ in from its edge, 2.4 mm deep", () => {
    const areaMm2 = floodedAreaMm2(roundShape(inchesToMm(2.5)), inchesToMm(0.25));
    expect(floodVolumeMl(areaMm2, 2.4) / TSP_ML).toBeCloseTo(1, 1);
  });

  test("top-coat takes 1½ to 2½ teaspoons of water a cup of base, flood more", () => {
    const topCoatTsp = teaspoonsACup(WATER_PCT["top-coat"]);
    expect(topCoatTsp).toBeGreaterThanOrEqual(1.5);
    expect(topCoatTsp).toBeLessThanOrEqual(2.5);
    expect(teaspoonsACup(WATER_PCT.flood)).toBeGreaterThan(topCoatTsp);
  });

  // From memory: 1000 g sugar, 55 g meringue powder, 165 g water. Stiff icing, so a little drier than outline icing.
  test("the base recipes come out somewhat drier than outline icing", () => {
    for (const recipe of Object.values(BASE_RECIPES)) {
      expect(recipeWaterPct(recipe)).toBeGreaterThan(12);
      expect(recipeWaterPct(recipe)).toBeLessThan(WATER_PCT.outline);
    }
  });
});
