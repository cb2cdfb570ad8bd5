import { createRequire } from "node:module";
import { describe, expect, test } from "vitest";
import { dewPointC, humidityRatio, saturationPa, vapourPa, warmed, wetBulbC } from "#shared/drying/air.ts";
import { PRESSURE_PA } from "#shared/drying/constants.ts";

/** The npm library psychrolib 1.1.1, an implementation of ASHRAE Handbook Fundamentals 2017 ch. 1; it has no types. */
interface PsychroLib {
  SI: number;
  SetUnitSystem(system: number): void;
  GetVapPresFromRelHum(tempC: number, rh: number): number;
  GetHumRatioFromRelHum(tempC: number, rh: number, pressurePa: number): number;
  GetTDewPointFromRelHum(tempC: number, rh: number): number;
  GetTWetBulbFromRelHum(tempC: number, rh: number, pressurePa: number): number;
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
    expect(vapourPa({ tempC, rhPct }) / psychrolib.GetVapPresFromRelHum(tempC, rh)).toBeCloseTo(1, 6);
    const ratio = humidityRatio(vapourPa({ tempC, rhPct }));
    expect(ratio / psychrolib.GetHumRatioFromRelHum(tempC, rh, PRESSURE_PA)).toBeCloseTo(1, 6);
  });

  test("dew point and wet bulb, to 0.005 K: psychrolib stops searching at 0.001 K, and goes by ice below freezing", () => {
    const dewPoint = psychrolib.GetTDewPointFromRelHum(tempC, rh);
    // Below freezing psychrolib's is a frost point: dew then lies lower, by a tenth of the distance to 0 °C.
    const slack = dewPoint < 0 ? 0.15 * -dewPoint : 0.005;
    expect(Math.abs(dewPointC(vapourPa({ tempC, rhPct })) - dewPoint)).toBeLessThan(slack);
    expect(
      Math.abs(wetBulbC({ tempC, rhPct }) - psychrolib.GetTWetBulbFromRelHum(tempC, rh, PRESSURE_PA)),
    ).toBeLessThan(0.005);
  });
});

test("H15 warmed air holds the water it held: its dew point stays", () => {
  const room = { tempC: 22, rhPct: 45 };
  const oven = warmed(room, 65.6, 0.5);
  expect(dewPointC(vapourPa(oven))).toBeCloseTo(dewPointC(vapourPa(room)), 5);
  expect(oven).toMatchObject({ tempC: 65.6, speedMs: 0.5 });
  expect(oven.rhPct).toBeLessThan(5);
});
