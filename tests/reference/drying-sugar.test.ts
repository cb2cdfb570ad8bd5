import { describe, expect, test } from "vitest";
import {
  saturatedActivity,
  solubilityPct,
  sucroseMoleFraction,
  waterActivity,
} from "#shared/drying/film/sugar.ts";

/** Water activity by mole fraction of sucrose after Norrish 1966, K = 6.47: a second opinion. */
const norrishWaterActivity = (sucrose: number): number => (1 - sucrose) * Math.exp(-6.47 * sucrose * sucrose);

describe("water activity over saturated sucrose solution", () => {
  // ± .01: published measurements lie that far apart.
  test.each([
    [20, 0.853],
    [25, 0.847],
    [30, 0.84],
  ])("%d °C: %d by Starzak & Peacock 1997 and by Norrish 1966", (tempC, activity) => {
    const sucrose = sucroseMoleFraction(solubilityPct(tempC));
    expect(Math.abs(waterActivity(sucrose, tempC) - activity)).toBeLessThan(0.01);
    expect(Math.abs(norrishWaterActivity(sucrose) - activity)).toBeLessThan(0.01);
    expect(saturatedActivity(tempC)).toBe(waterActivity(sucrose, tempC));
  });

  test("falls on to 0.775 at 65.6 °C (computed from the same formula, memory)", () => {
    expect(Math.abs(saturatedActivity(65.6) - 0.775)).toBeLessThan(0.01);
  });
});

// Half a percent: as far as Vavrinecz 1962 lies from other tables. Sugar handbooks, from memory.
test.each([
  [0, 64.2],
  [20, 66.7],
  [30, 68.2],
  [60, 74.2],
  [80, 78.4],
])("solubility of sucrose at %d °C is %d % by mass", (tempC, massPct) => {
  expect(Math.abs(solubilityPct(tempC) - massPct)).toBeLessThan(0.5);
});
