import { scaleSymlog } from "d3-scale";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AXIS_END_MIN, AXIS_TICKS_MIN, axisPlace, boxOf } from "#display/model/time-axis.ts";

const MIN = 60_000;

describe("the axis", () => {
  it("is d3's symmetric-log scale", () => {
    const d3 = scaleSymlog().constant(5.5).domain([0, AXIS_END_MIN]).range([0, 1]);
    for (const minutes of [0, 0.5, 5, 15, 30, 60, 120, 240, 480, 900, AXIS_END_MIN])
      expect(axisPlace(minutes)).toBeCloseTo(d3(minutes), 12);
  });

  it("runs from now to tomorrow, later always farther to the right", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: AXIS_END_MIN, noNaN: true }),
        fc.double({ min: 0.01, max: 60, noNaN: true }),
        (at, more) => {
          expect(axisPlace(Math.min(AXIS_END_MIN, at + more))).toBeGreaterThanOrEqual(axisPlace(at));
        },
      ),
    );
    expect([axisPlace(-10), axisPlace(0), axisPlace(AXIS_END_MIN), axisPlace(1e6)]).toEqual([0, 0, 1, 1]);
  });

  it("is stretched near now: the first hour takes more than half of it, each mark stands clear of the next", () => {
    const places = AXIS_TICKS_MIN.map((atMin) => axisPlace(atMin));
    expect(axisPlace(60)).toBeGreaterThan(0.4);
    for (const [index, place] of places.slice(1).entries())
      expect(place - places[index]!).toBeGreaterThan(0.07);
    expect(places[0]).toBe(0);
    expect(places.at(-1)).toBe(1);
  });
});

describe("a stretch on the axis", () => {
  const stretch = fc
    .tuple(
      fc.double({ min: -30, max: 2000, noNaN: true }),
      fc.double({ min: 0, max: 600, noNaN: true }),
      fc.double({ min: 0, max: 600, noNaN: true }),
    )
    .map(([from, a, b]) => ({
      earliestMs: from * MIN,
      likelyMs: (from + a) * MIN,
      latestMs: (from + a + b) * MIN,
    }));

  it("has room for its label, stays on the axis, and keeps its mark inside", () => {
    fc.assert(
      fc.property(stretch, fc.double({ min: 20, max: 300, noNaN: true }), (band, least) => {
        const box = boxOf(band, 0, 900, least);
        expect(box.widthPx).toBeGreaterThanOrEqual(least - 1e-9);
        expect(box.leftPx).toBeGreaterThanOrEqual(0);
        expect(box.leftPx + box.widthPx).toBeLessThanOrEqual(900 + 1e-9);
        expect(box.markPx).toBeGreaterThanOrEqual(box.leftPx - 1e-9);
        expect(box.markPx).toBeLessThanOrEqual(box.leftPx + box.widthPx + 1e-9);
      }),
    );
  });

  it("drifts to the left and never back", () => {
    fc.assert(
      fc.property(stretch, fc.double({ min: 0, max: 120, noNaN: true }), (band, later) => {
        const [now, then] = [boxOf(band, 0, 900, 60), boxOf(band, later * MIN, 900, 60)];
        expect(then.leftPx).toBeLessThanOrEqual(now.leftPx + 1e-9);
        expect(then.markPx).toBeLessThanOrEqual(now.markPx + 1e-9);
      }),
    );
  });
});
