import { createRequire } from "node:module";
import { describe, expect, test } from "vitest";
import { saturationPa, vapourPa, warmed } from "#shared/drying/film/air.ts";
import { PRESSURE_PA, WATER_AIR_MASS_RATIO } from "#shared/drying/film/constants.ts";

/** The npm library psychrolib 1.1.1, an implementation of ASHRAE Handbook Fundamentals 2017 ch. 1; it has no types. */
interface PsychroLib {
  SI: number;
  SetUnitSystem(system: number): void;
  GetVapPresFromRelHum(tempC: number, rh: number): number;
  GetHumRatioFromRelHum(tempC: number, rh: number, pressurePa: number): number;
  GetTDewPointFromRelHum(tempC: number, rh: number): number;
}
const psychrolib = createRequire(import.meta.url)("psychrolib") as PsychroLib;
psychrolib.SetUnitSystem(psychrolib.SI);

const AIRS = [15, 22, 29, 35].flatMap((tempC) => [20, 52, 85].map((rhPct) => ({ tempC, rhPct })));

describe("saturation pressure, ASHRAE Handbook Fundamentals 2017 ch. 1 table 3", () => {
  // 300 ppm: the table is of moist air's own formulation, the equation of IAPWS: they differ by that much.
  test.each([
    [5, 872.6],
    [25, 3169.7],
    [50, 12351.3],
    [100, 101418],
  ])("%d °C: %d Pa", (tempC, pa) => {
    expect(Math.abs(saturationPa(tempC) / pa - 1)).toBeLessThan(300e-6);
  });
});

describe.each(AIRS)("moist air at $tempC °C and $rhPct %, against psychrolib", ({ tempC, rhPct }) => {
  const rh = rhPct / 100;

  test("vapour pressure and humidity ratio, to 1e-6: the same equations", () => {
    const pa = vapourPa({ tempC, rhPct });
    expect(pa / psychrolib.GetVapPresFromRelHum(tempC, rh)).toBeCloseTo(1, 6);
    const ratio = (WATER_AIR_MASS_RATIO * pa) / (PRESSURE_PA - pa);
    expect(ratio / psychrolib.GetHumRatioFromRelHum(tempC, rh, PRESSURE_PA)).toBeCloseTo(1, 6);
  });

  test("it is saturated at its dew point, to 0.005 K: psychrolib stops searching at 0.001 K", () => {
    const dewPointC = psychrolib.GetTDewPointFromRelHum(tempC, rh);
    // Below freezing psychrolib's is a frost point: dew then lies lower, by a tenth of the distance to 0 °C.
    const slackK = dewPointC < 0 ? 0.15 * -dewPointC : 0.005;
    const pa = vapourPa({ tempC, rhPct });
    expect(saturationPa(dewPointC - slackK)).toBeLessThan(pa);
    expect(saturationPa(dewPointC + slackK)).toBeGreaterThan(pa);
  });
});

test("H37 warmed air holds the water it held: its vapour pressure stays", () => {
  const room = { tempC: 22, rhPct: 45 };
  const oven = warmed(room, 65.6, 0.5);
  expect(vapourPa(oven) / vapourPa(room)).toBeCloseTo(1, 9);
  expect(oven).toMatchObject({ tempC: 65.6, speedMs: 0.5 });
  expect(oven.rhPct).toBeLessThan(5);
});
