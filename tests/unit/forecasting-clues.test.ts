import { TOO_DAMP } from "#tests/support/too-damp.ts";
import { describe, expect, it } from "vitest";
import { given } from "#shared/kitchen/forecast/clues.ts";

/** Log-normal about an hour with the spread before any evidence: 10th and 90th percentile at z = ±1.281552. */
const SD = Math.log(1.5);
const at = (z: number): number => 3600 * Math.exp(SD * z);
const HOUR_BAND = { earliestMs: at(-1.2815515655), likelyMs: 3600, latestMs: at(1.2815515655) };

describe("a band given what fingers found", () => {
  it("nothing found leaves it alone", () => {
    expect(given(HOUR_BAND, undefined)).toBe(HOUR_BAND);
  });

  it("K10 a found time is a fact, also where the sums say never", () => {
    const found = { earliestMs: 700, likelyMs: 700, latestMs: 700 };
    expect(given(HOUR_BAND, { reachedMs: 700 })).toEqual(found);
    expect(given({ never: TOO_DAMP }, { reachedMs: 700 })).toEqual(found);
  });

  it("K10 D6 still wet at the median: the 10th, 50th and 90th percentiles of the later half", () => {
    // Φ⁻¹(0.55), Φ⁻¹(0.75), Φ⁻¹(0.95): standard normal table (NIST/SEMATECH e-Handbook 1.3.6.7.1; digits from memory).
    const band = given(HOUR_BAND, { notYetMs: 3600 });
    if ("never" in band) throw new Error("is a band");
    expect(band.earliestMs).toBeCloseTo(at(0.1256613), 1);
    expect(band.likelyMs).toBeCloseTo(at(0.6744898), 1);
    expect(band.latestMs).toBeCloseTo(at(1.6448536), 1);
  });

  it("still wet long before the earliest changes hardly anything", () => {
    const band = given(HOUR_BAND, { notYetMs: 300 });
    expect(band).toMatchObject({
      earliestMs: expect.closeTo(HOUR_BAND.earliestMs, -1),
      likelyMs: expect.closeTo(3600, -1),
    });
  });

  it("D6 still wet however late: ordered, and after that moment", () => {
    for (const notYetMs of [1, 2000, 3600, 7200, 30_000, 500_000]) {
      const band = given(HOUR_BAND, { notYetMs });
      if ("never" in band) throw new Error("is a band");
      expect(band.earliestMs).toBeGreaterThanOrEqual(notYetMs);
      expect(band.likelyMs).toBeGreaterThan(band.earliestMs);
      expect(band.latestMs).toBeGreaterThan(band.likelyMs);
      expect(band.latestMs).toBeLessThan(Infinity);
    }
  });

  it("a lopsided band keeps a spread of its own on each side", () => {
    const lopsided = { earliestMs: 3000, likelyMs: 3600, latestMs: 36_000 };
    const band = given(lopsided, { notYetMs: 3600 });
    if ("never" in band) throw new Error("is a band");
    // Above the median sd = ln 10 / 1.281552, so the median of the later half is 3600 · exp(0.674490 · sd).
    expect(band.likelyMs).toBeCloseTo(3600 * Math.exp((0.6744898 * Math.log(10)) / 1.2815515655), 0);
  });

  it("never stays never while the film is still wet", () => {
    expect(given({ never: TOO_DAMP }, { notYetMs: 60 })).toEqual({ never: TOO_DAMP });
  });
});
