import { describe, expect, test } from "vitest";
import { normalTail, truncatedNormal } from "#shared/drying/uncertainty/normal.ts";

describe("the normal behind the learning", () => {
  // Abramowitz & Stegun, tables 26.1 and 26.2 (from memory, ten digits).
  test.each([
    [0, 0.5],
    [1, 0.1586552539],
    [1.2815515655446004, 0.1],
    [2, 0.02275013195],
    [3, 0.001349898032],
    [5, 2.866515719e-7],
    [10, 7.619853024e-24],
  ])("the tail above %d is %d", (z, tail) => {
    // The table's own last digit.
    expect(Math.abs(normalTail(z) / tail - 1)).toBeLessThan(5e-10);
    expect(normalTail(-z)).toBeCloseTo(1 - tail, 10);
  });

  test("the half normal: mean √(2/π), variance 1 − 2/π (exact)", () => {
    const upper = truncatedNormal(3, 2, 3, Infinity);
    expect(upper.mass).toBeCloseTo(0.5, 12);
    expect(upper.mean).toBeCloseTo(3 + 2 * Math.sqrt(2 / Math.PI), 12);
    expect(upper.variance).toBeCloseTo(4 * (1 - 2 / Math.PI), 12);
    expect(truncatedNormal(3, 2, -Infinity, 3).mean).toBeCloseTo(3 - 2 * Math.sqrt(2 / Math.PI), 12);
  });

  test("a narrow interval is flat: its middle, and width² / 12 (limit, exact to the fourth order)", () => {
    const narrow = truncatedNormal(0, 1, 0.5, 0.502);
    expect(narrow.mean).toBeCloseTo(0.501, 6);
    expect(narrow.variance / (0.002 ** 2 / 12)).toBeCloseTo(1, 4);
  });

  test("far out in the tail the digits hold: mean beyond 20 is 20 + 1/20 − 2/20³ (Mills' ratio, leading terms)", () => {
    expect(truncatedNormal(0, 1, 20, Infinity).mean).toBeCloseTo(20 + 1 / 20 - 2 / 20 ** 3, 5);
  });

  test("as an interval closes on a value, its mass over its width goes to the density", () => {
    const width = 1e-5;
    const interval = truncatedNormal(0.2, 0.3, 0.4, 0.4 + width).mass / width;
    expect(interval / truncatedNormal(0.2, 0.3, 0.4, 0.4).mass).toBeCloseTo(1, 4);
  });
});
