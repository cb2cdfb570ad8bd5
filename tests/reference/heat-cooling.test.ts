import { describe, expect, test } from "vitest";
import {
  coolingTimeS,
  DEFAULT_TRAY,
  TOUCH_SAFE_C,
  traySafeAfterS,
  trayTimeConstantS,
} from "#shared/heat/cooling.ts";

describe("cooling of a lumped body", () => {
  // Çengel, Heat and Mass Transfer, example 4-1 (from memory): a thermocouple's 1 mm bead, 8500 kg/m³, 320 J/kgK,
  // h 210 W/m²K, to 99 % of the change: "10 s". By hand: Lc = D/6, τ = 8500·320·(0.001/6)/210 = 2.159 s, × ln 100.
  test("a thermocouple's bead settles in 10 s (Çengel 4-1)", () => {
    const tauS = (8500 * 320 * (0.001 / 6)) / 210;
    expect(coolingTimeS(tauS, 100, 1, 0)).toBeCloseTo(9.94, 1);
  });

  // Incropera, Fundamentals of Heat and Mass Transfer, example 5.1 (from memory): τ 1 s, 25 to 199 °C in gas at
  // 200 °C takes 5.2 s: the distance from the gas falls from 175 K to 1 K.
  test("a junction comes within 1 K of the gas in 5.2 s (Incropera 5.1)", () => {
    expect(coolingTimeS(1, 175, 1, 0)).toBeCloseTo(5.2, 1);
  });

  test("the halving time of a body is ln 2 time constants", () => {
    expect(coolingTimeS(100, 80, 50, 20)).toBeCloseTo(100 * Math.LN2, 9);
  });
});

describe("H31 a tray is hot until below 51 °C", () => {
  // By hand: bare 1 mm aluminium 2700·900·0.001 = 2430 J/m²K over 2 × 5 W/m²K.
  test("a bare sheet's time constant is 243 s", () => {
    expect(trayTimeConstantS(DEFAULT_TRAY, 0)).toBeCloseTo(243, 9);
  });

  // By hand: 243 ln((65.6 − 22)/(51 − 22)) = 243 × 0.4078 = 99.1 s.
  test("a bare sheet from 65.6 °C in a room at 22 °C", () => {
    const tauS = trayTimeConstantS(DEFAULT_TRAY, 0);
    expect(coolingTimeS(tauS, 65.6, TOUCH_SAFE_C, 22)).toBeCloseTo(99.1, 1);
  });

  // By hand: (364.5 + 54 n)/1.5 s × 0.4078, cookies of 30 g at 1.8 kJ/kgK; an independent sum gave 4.5 and 7.4 min.
  test.each([
    [12, 4.5],
    [24, 7.4],
  ])("with %i cookies from 65.6 °C: %d min, within 3 %%", (cookies, minutes) => {
    expect(Math.abs(traySafeAfterS(65.6, 22, cookies) / 60 / minutes - 1)).toBeLessThan(0.03);
  });
});
