import { expect, test } from "vitest";
import { lightnessDifference, lightnessOf, showsIfItBleeds } from "#shared/icing/contrast.ts";

test("I4 a bleed shows above 25 L*: common practice, no source", () => {
  expect(showsIfItBleeds("#ffffff", "#1b2a4a")).toBe(true);
  expect(showsIfItBleeds("#fff3c4", "#ffd9e0")).toBe(false);
  // Greys at L* 50.03 and 24.4 (#3a3a3a), 25.6 apart; and at 25.3 (#3c3c3c), 24.7 apart.
  expect(showsIfItBleeds("#777777", "#3a3a3a")).toBe(true);
  expect(showsIfItBleeds("#777777", "#3c3c3c")).toBe(false);
});

test("colours may be short and in capitals; others are refused", () => {
  expect(lightnessOf("#FFF")).toBe(lightnessOf("#ffffff"));
  expect(lightnessDifference("#000", "#fff")).toBeCloseTo(100, 6);
  for (const bad of ["", "red", "fff", "#12345", "#ggg", "#ffffff80"])
    expect(() => lightnessOf(bad)).toThrow("colour must be #rgb or #rrggbb");
});
