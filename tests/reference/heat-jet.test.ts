import { describe, expect, test } from "vitest";
import { airMatter } from "#shared/drying/film/transfer.ts";
import { centrelineExcessC, jetAt, JET_H_WM2K, martinNusselt } from "#shared/heat/jet.ts";

describe("Martin's correlation for one round nozzle", () => {
  // Martin 1977 in the form of Incropera eq. 7.73–7.75, worked by hand: √Ar = D/2r = 0.1, G = 2·0.1·(1 − 0.22) = 0.156,
  // F = 2·√20000·√(1 + 0.005·20000^0.55) = 282.84 × 1.4697 = 415.7, Nu = 0.156 × 415.7 × 0.7^0.42 = 55.8.
  test("Re 20 000, H/D 6, r/D 5", () => {
    expect(martinNusselt(20_000, 0.7, 5, 6)).toBeCloseTo(55.8, 1);
  });

  // Incropera's other form of G, with Ar = D²/4r², over the whole valid range: the same function written differently.
  test("agrees with the form by area ratio", () => {
    for (const re of [2000, 30_000, 400_000])
      for (const heightByWidth of [2, 6, 12])
        for (const radiusByWidth of [2.5, 4, 7.5]) {
          const root = 1 / (2 * radiusByWidth);
          const g = (2 * root * (1 - 2.2 * root)) / (1 + 0.2 * (heightByWidth - 6) * root);
          const f = 2 * re ** 0.5 * (1 + 0.005 * re ** 0.55) ** 0.5;
          expect(martinNusselt(re, 0.7, radiusByWidth, heightByWidth)).toBeCloseTo(g * f * 0.7 ** 0.42, 9);
        }
  });

  // 10 mm at 15 m/s and 200 °C, 12 widths off, by hand: Re 15·0.01/3.46e-5 = 4340, Nu 25.1, h = 25.1·0.0385/0.01 = 97.
  // 4 % for the air's properties.
  test("a small fast nozzle gives about 97 W/m²K", () => {
    const { hWm2K } = jetAt(200, 22, 10, 120, 15);
    expect(hWm2K / 97).toBeGreaterThan(0.96);
    expect(hWm2K / 97).toBeLessThan(1.04);
    expect(airMatter(200).viscosityM2S / 3.46e-5).toBeCloseTo(1, 1);
  });

  test("heat transfer keeps to the 60–150 W/m²K computed over craft tools and heat guns", () => {
    for (const outletC of [100, 270, 550])
      for (const nozzleMm of [5, 25, 80])
        for (const speedMs of [1, 4, 30]) {
          const { hWm2K } = jetAt(outletC, 22, nozzleMm, 140, speedMs);
          expect(hWm2K).toBeGreaterThanOrEqual(JET_H_WM2K.min);
          expect(hWm2K).toBeLessThanOrEqual(JET_H_WM2K.max);
        }
  });
});

describe("free jet's centreline, ΔT0 · min(1, 5 d/x) (from memory)", () => {
  test.each([
    [250, 20, 200, 125],
    [250, 20, 100, 250],
    [250, 20, 50, 250],
    [248, 25, 140, 221.43],
  ])("%f K from %f mm at %f mm leaves %f K", (excessC, nozzleMm, distanceMm, leftC) => {
    expect(centrelineExcessC(excessC, nozzleMm, distanceMm)).toBeCloseTo(leftC, 2);
  });
});
