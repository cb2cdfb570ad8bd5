import { describe, expect, test } from "vitest";
import { airMatter } from "#shared/drying/film/transfer.ts";
import { heldTooLongS } from "#shared/heat/held-jet.ts";
import { centrelineExcessC, jetAt, martinNusselt } from "#shared/heat/jet.ts";

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

  // Computed apart with Martin's formula for nozzles, distances and speeds of craft tools and heat guns: 32–56 W/m²K.
  test.each([
    [270, 25, 140, 4],
    [350, 25, 140, 4],
    [270, 40, 140, 4],
    [270, 25, 60, 4],
    [550, 40, 200, 8],
  ])("%i °C through %i mm, %i mm off, %i m/s: 32–56 W/m²K", (outletC, nozzleMm, distanceMm, speedMs) => {
    const { hWm2K } = jetAt(outletC, 22, nozzleMm, distanceMm, speedMs);
    expect(hWm2K).toBeGreaterThan(32);
    expect(hWm2K).toBeLessThan(56);
  });
});

describe("free jet's centreline, ΔT0 · min(1, 5 d/x · √(ρ0/ρ∞)) (from memory)", () => {
  test("270 °C through 25 mm, 140 mm off: 185 °C in a room at 22 °C", () => {
    expect(22 + centrelineExcessC(270, 22, 25, 140)).toBeCloseTo(185.2, 1);
  });
  test("a jet as warm as the room has the cold jet's law", () => {
    expect(centrelineExcessC(23, 22, 20, 200) / ((20 * 5) / 200)).toBeCloseTo(1, 2);
  });
  test("near the nozzle nothing is lost", () => {
    expect(centrelineExcessC(272, 22, 20, 50)).toBe(250);
  });
});

describe("hot air held still", () => {
  const jet = jetAt(270, 22, 25, 140, 4);

  // A thick body under a constant coefficient: Incropera eq. 5.63 (semi-infinite solid, surface convection), from memory:
  // at x = 0 (T − Ti)/(T∞ − Ti) = 1 − exp(β²) erfc(β), β = h √(αt)/k.
  test("the surface of thick icing warms as a semi-infinite solid does, within 3 %", () => {
    const h = 1.5 * jet.hWm2K;
    const alpha = 0.4 / 2.7e6;
    // Abramowitz & Stegun 7.1.26, error under 1.5e-7.
    const erfc = (x: number): number => {
      const t = 1 / (1 + 0.3275911 * x);
      const series = [0.254829592, -0.284496736, 1.421413741, -1.453152027, 1.061405429];
      return series.reduceRight((sum, a) => (sum + a) * t, 0) * Math.exp(-x * x);
    };
    const riseAt = (s: number): number => {
      const beta = (h * Math.sqrt(alpha * s)) / 0.4;
      return (jet.tempC - 22) * (1 - Math.exp(beta * beta) * erfc(beta));
    };
    for (const limitC of [40, 50, 60]) {
      const s = heldTooLongS(12, jet, 22, limitC, 300);
      expect(Math.abs(riseAt(s) / (limitC - 22) - 1)).toBeLessThan(0.03);
    }
  });

  test("brings the usual film to 60 °C in about 20 s (computed apart: about 20 s)", () => {
    const s = heldTooLongS(2, jet, 22, 60, 180);
    expect(s).toBeGreaterThan(12);
    expect(s).toBeLessThan(30);
  });

  test("never, where the jet is no hotter than the limit; at once, where the icing is", () => {
    expect(heldTooLongS(2, { tempC: 59, hWm2K: 40 }, 22, 60, 180)).toBe(Infinity);
    expect(heldTooLongS(2, jet, 61, 60, 180)).toBe(0);
  });
});
