import { describe, expect, test } from "vitest";
import { Average } from "#shared/drying/uncertainty/average.ts";

/** Steps until an average settles of which `kept` of what it was comes back, about 0.04 to begin with and 0.09 in truth. */
function settle(kept: number): { steps: number; value: number } {
  const average = new Average(0.04, 0.36);
  for (let steps = 1; ; steps += 1) {
    average.add(kept * average.value + (1 - kept) * 0.09, 1);
    if (average.learn(0) < 1e-9 || steps === 1000) return { steps, value: average.value };
  }
}

describe("an average learned in steps", () => {
  // Plain steps shrink by `kept`: from 0.05 to 1e-9 they are ln(0.05 / 1e-9) / −ln(kept), 109 at 0.85 and 35 at 0.6.
  test.each([
    [0.85, 30],
    [0.6, 15],
    [0, 2],
  ])("comes to what it says of itself; of %d in a few steps", (kept, most) => {
    const { steps, value } = settle(kept);
    expect(value).toBeCloseTo(0.09, 7);
    expect(steps).toBeLessThanOrEqual(most);
  });

  test("that something else swings to and fro goes no further than that, and stays in its range", () => {
    const average = new Average(0.04, 0.36);
    for (let step = 0; step < 60; step += 1) {
      average.add(step % 2 === 0 ? 0.01 : 5, 1);
      average.learn(1);
      expect(average.value).toBeGreaterThan(0);
      expect(average.value).toBeLessThanOrEqual(0.36);
    }
  });

  test("as if infinitely many had said what it was, it stays", () => {
    const average = new Average(0.04, 0.36);
    average.add(0.3, 100);
    expect(average.learn(Infinity)).toBe(0);
    expect(average.value).toBe(0.04);
  });
});
