import { describe, expect, test } from "vitest";
import { BURN_THRESHOLDS, ONE_SECOND_BURN_C, TOUCH_SAFE_C } from "#shared/heat/cooling.ts";

/**
 * EN 563:1994 (now ISO 13732-1), smooth bare surfaces, as quoted by manufacturers' and regulators' guides: 1 s band,
 * 1 min, 10 min, 8 h and longer. The 10 s column of BURN_THRESHOLDS is from memory and so is only held to lie between.
 */
const EN_563 = [
  ["bare metal", [65, 70], 51, 48, 43],
  ["coated metal", [75, 80], 51, 48, 43],
  ["ceramic or glass", [80, 86], 56, 48, 43],
  ["plastic", [86, 93], 60, 48, 43],
  ["wood", [110, 140], 60, 48, 43],
] as const;

const at = (material: string, contactS: number) =>
  BURN_THRESHOLDS.find((line) => line.material === material && line.contactS === contactS)!;

describe("H11 burn thresholds are those of EN 563 / ISO 13732-1", () => {
  test.each(EN_563)("%s", (material, second, minuteC, tenMinutesC, hoursC) => {
    expect([at(material, 1).fromC, at(material, 1).toC]).toEqual(second);
    expect(at(material, 60).fromC).toBe(minuteC);
    expect(at(material, 600).fromC).toBe(tenMinutesC);
    expect(at(material, 28_800).fromC).toBe(hoursC);
    expect(at(material, 10).fromC).toBeGreaterThan(minuteC);
    expect(at(material, 10).fromC).toBeLessThan(second[0]);
  });

  test("a tray counts as safe and as hot by the bare metal's minute and second", () => {
    expect(TOUCH_SAFE_C).toBe(at("bare metal", 60).fromC);
    expect(ONE_SECOND_BURN_C).toBe(at("bare metal", 1).fromC);
  });

  test("what is from memory says so", () => {
    for (const line of BURN_THRESHOLDS) expect(line.source.includes("memory")).toBe(line.contactS === 10);
  });
});
