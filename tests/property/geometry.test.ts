import * as fc from "fast-check";
import { expect, test } from "vitest";
import { doRingsCross } from "#shared/geometry/crossing.ts";
import { narrowestMm } from "#shared/geometry/narrowest.ts";
import { type Matrix, moved, parsePath, pathOfRings, pathText } from "#shared/geometry/path.ts";
import type { Ring } from "#shared/geometry/point.ts";
import {
  areaMm2,
  common,
  inset,
  perimeterMm,
  regionOfRings,
  together,
  without,
} from "#shared/geometry/region.ts";

const number = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

/** A ring around the middle, its corners at any distances: it never crosses itself. */
const rings: fc.Arbitrary<Ring> = fc.array(number(15, 60), { minLength: 5, maxLength: 24 }).map((radii) =>
  radii.map((r, k) => {
    const turn = (2 * Math.PI * k) / radii.length;
    return { x: 100 + r * Math.cos(turn), y: 100 + r * Math.sin(turn) };
  }),
);

const turned = (degrees: number, mirror: 1 | -1): Matrix => {
  const [sin, cos] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
  return [mirror * cos, mirror * sin, -sin, cos, 40, -25];
};

const near = (a: number, b: number, within = 0.01): void =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(within * Math.max(Math.abs(a), Math.abs(b)) + 1e-3);

test("G4 a form turned or mirrored has the same measures", () => {
  fc.assert(
    fc.property(rings, number(0, 360), fc.constantFrom(1 as const, -1 as const), (ring, degrees, mirror) => {
      const matrix = turned(degrees, mirror);
      const [one, other] = [ring, ring.map((point) => moved(matrix, point))].map((r) => regionOfRings([r]));
      near(areaMm2(one!), areaMm2(other!), 0.001);
      near(perimeterMm(one!), perimeterMm(other!), 0.001);
      near(narrowestMm(one!)!, narrowestMm(other!)!);
      near(areaMm2(inset(one!, 2)), areaMm2(inset(other!, 2)));
    }),
    { numRuns: 60 },
  );
});

test("G1 what two forms share and what either has alone add up", () => {
  fc.assert(
    fc.property(rings, rings, number(-40, 40), (a, b, by) => {
      const one = regionOfRings([a]);
      const other = regionOfRings([b.map(({ x, y }) => ({ x: x + by, y }))]);
      near(areaMm2(common(one, other)) + areaMm2(without(one, other)), areaMm2(one));
      near(areaMm2(one) + areaMm2(other) - areaMm2(common(one, other)), areaMm2(together(one, other)));
    }),
    { numRuns: 60 },
  );
});

test("G8 a ring around its middle does not cross itself", () => {
  fc.assert(
    fc.property(rings, (ring) => {
      expect(doRingsCross([ring])).toBe(false);
    }),
    { numRuns: 300 },
  );
});

test("G8 a convex ring with any two corners swapped crosses itself", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 5, max: 24 }),
      number(5, 60),
      fc.nat(),
      fc.nat(),
      (corners, r, from, by) => {
        const ring = Array.from({ length: corners }, (_, k) => {
          const turn = (2 * Math.PI * k) / corners;
          return { x: r * Math.cos(turn), y: r * Math.sin(turn) };
        });
        const one = from % corners;
        const other = (one + 1 + (by % (corners - 1))) % corners;
        expect(doRingsCross([ring.with(one, ring[other]!).with(other, ring[one]!)])).toBe(true);
      },
    ),
    { numRuns: 300 },
  );
});

test("G6 path data written and read again is the same", () => {
  fc.assert(
    fc.property(rings, (ring) => {
      const text = pathText(pathOfRings([ring]));
      const read = parsePath(text);
      expect(read.ok && pathText(read.value)).toBe(text);
    }),
  );
});
