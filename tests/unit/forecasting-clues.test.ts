import { TOO_DAMP } from "#tests/support/too-damp.ts";
import { describe, expect, it } from "vitest";
import { given } from "#shared/kitchen/forecast/clues.ts";

/** Log-normal about an hour with the spread before any evidence: 10th and 90th percentile at z = ±1.281552. */
const SD = Math.log(1.5);
const at = (z: number): number => 3600 * Math.exp(SD * z);
const HOUR_BAND = { earliestS: at(-1.2815515655), likelyS: 3600, latestS: at(1.2815515655) };

describe("a band given what fingers found", () => {
  it("nothing found leaves it alone", () => {
    expect(given(HOUR_BAND, undefined)).toBe(HOUR_BAND);
  });

  it("K10 a found time is a fact, also where the sums say never", () => {
    const found = { earliestS: 700, likelyS: 700, latestS: 700 };
    expect(given(HOUR_BAND, { reachedS: 700 })).toEqual(found);
    expect(given({ never: TOO_DAMP }, { reachedS: 700 })).toEqual(found);
  });

  it("K10 D6 still wet at the median: the 10th, 50th and 90th percentiles of the later half", () => {
    // Φ⁻¹(0.55), Φ⁻¹(0.75), Φ⁻¹(0.95): standard normal table (NIST/SEMATECH e-Handbook 1.3.6.7.1; digits from memory).
    const band = given(HOUR_BAND, { notYetS: 3600 });
    if ("never" in band) throw new Error("is a band");
    expect(band.earliestS).toBeCloseTo(at(0.1256613), 1);
    expect(band.likelyS).toBeCloseTo(at(0.6744898), 1);
    expect(band.latestS).toBeCloseTo(at(1.6448536), 1);
  });

  it("still wet long before the earliest changes hardly anything", () => {
    const band = given(HOUR_BAND, { notYetS: 300 });
    expect(band).toMatchObject({
      earliestS: expect.closeTo(HOUR_BAND.earliestS, -1),
      likelyS: expect.closeTo(3600, -1),
    });
  });

  it("D6 still wet however late: ordered, and after that moment", () => {
    for (const notYetS of [1, 2000, 3600, 7200, 30_000, 500_000]) {
      const band = given(HOUR_BAND, { notYetS });
      if ("never" in band) throw new Error("is a band");
      expect(band.earliestS).toBeGreaterThanOrEqual(notYetS);
      expect(band.likelyS).toBeGreaterThan(band.earliestS);
      expect(band.latestS).toBeGreaterThan(band.likelyS);
      expect(band.latestS).toBeLessThan(Infinity);
    }
  });

  it("a lopsided band keeps a spread of its own on each side", () => {
    const lopsided = { earliestS: 3000, likelyS: 3600, latestS: 36_000 };
    const band = given(lopsided, { notYetS: 3600 });
    if ("never" in band) throw new Error("is a band");
    // Above the median sd = ln 10 / 1.281552, so the median of the later half is 3600 · exp(0.674490 · sd).
    expect(band.likelyS).toBeCloseTo(3600 * Math.exp((0.6744898 * Math.log(10)) / 1.2815515655), 0);
  });

  it("never stays never while the film is still wet", () => {
    expect(given({ never: TOO_DAMP }, { notYetS: 60 })).toEqual({ never: TOO_DAMP });
  });
});
