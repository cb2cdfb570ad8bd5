import { describe, expect, test } from "vitest";
import {
  BASE_RECIPES,
  baseAndWater,
  recipeFor,
  recipeWaterPct,
  waterToStirInG,
} from "#shared/icing/water.ts";

describe("I8 water to stir in", () => {
  // By hand: 1000 g at 15 % holds 150 g; with 62.5 g more, 212.5 g of 1062.5 g is 20 %.
  test("brings base to the wanted share", () => {
    expect(waterToStirInG(1000, 15, 20)).toBeCloseTo(62.5, 9);
    expect(waterToStirInG(1000, 15, 15)).toBe(0);
  });

  test("a batch is told as base and water that sum to it", () => {
    const { baseG, waterG } = baseAndWater(1062.5, 20, 15);
    expect(baseG).toBeCloseTo(1000, 9);
    expect(waterG).toBeCloseTo(62.5, 9);
  });

  test("water is not taken out, and bad figures are refused by name", () => {
    expect(() => waterToStirInG(1000, 20, 15)).toThrow("wantedPct must be at least the base's 20 %");
    expect(() => waterToStirInG(-1, 15, 20)).toThrow("baseG must be 0 g or more");
    expect(() => waterToStirInG(1000, 15, 60)).toThrow("wantedPct must be 5–40 %");
    expect(() => recipeFor(BASE_RECIPES["meringue-powder"], 0)).toThrow("massG must be above 0 g");
  });
});

test("a base recipe scales by weight and keeps its water share", () => {
  const recipe = BASE_RECIPES["meringue-powder"];
  const half = recipeFor(recipe, 610);
  expect(half.map(({ massG }) => massG)).toEqual([500, 27.5, 82.5]);
  expect(recipeWaterPct(half)).toBeCloseTo(recipeWaterPct(recipe), 12);
  expect(recipeWaterPct([{ name: "water", massG: 10, waterPct: 100 }])).toBe(100);
});
