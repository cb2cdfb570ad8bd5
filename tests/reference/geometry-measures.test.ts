import { expect, test } from "vitest";
import { flattened, lengthMm } from "#shared/geometry/flatten.ts";
import { narrowestMm } from "#shared/geometry/narrowest.ts";
import { areaMm2, centroid, inset, perimeterMm } from "#shared/geometry/region.ts";
import { circlePath, pathFrom, regionFrom } from "#tests/support/shapes.ts";

/** Asked for is 1 % at the drawn resolution, which for a curve of 10 mm is its chord's 0.02 mm. */
const share = (value: number | undefined, of: number): void =>
  expect(Math.abs(value! / of - 1)).toBeLessThan(0.01);

/** A star of five tips, its corners by turns 40 and 16 mm from its middle. */
const star = `M${Array.from({ length: 10 }, (_, k) => {
  const r = k % 2 === 0 ? 40 : 16;
  return `${50 + r * Math.sin((Math.PI * k) / 5)} ${50 - r * Math.cos((Math.PI * k) / 5)}`;
}).join("L")}Z`;
const sideOfStar = Math.sqrt(40 ** 2 + 16 ** 2 - 2 * 40 * 16 * Math.cos(Math.PI / 5));

// Closed forms of plane geometry. The narrowest span of the L: a circle touches both outer edges and the inner corner
// of the bend, 20 mm from each, so its radius r is √2 (20 − r): 2 r = 23.43 mm.
// A star's reaches its five inner corners.
test.each([
  ["circle", circlePath(30, 30, 20), Math.PI * 400, 40 * Math.PI, 40, [30, 30]],
  ["small circle", circlePath(30, 30, 5), Math.PI * 25, 10 * Math.PI, 10, [30, 30]],
  ["square", "M10 10h40v40h-40z", 1600, 160, 40, [30, 30]],
  ["oblong", "M0 0H80V12H0Z", 960, 184, 12, [40, 6]],
  ["annulus", circlePath(30, 30, 20) + circlePath(30, 30, 10), 300 * Math.PI, 60 * Math.PI, 10, [30, 30]],
  ["L", "M0 0H20V40H60V60H0Z", 2000, 240, (2 * (20 * Math.SQRT2)) / (1 + Math.SQRT2), [22, 38]],
  ["star", star, 5 * 40 * 16 * Math.sin(Math.PI / 5), 10 * sideOfStar, 32, [50, 50]],
] as const)(
  "G1 G2 %s: area, perimeter, narrowest span and centroid",
  (_name, d, area, perimeter, narrowest, middle) => {
    const region = regionFrom(d);
    share(areaMm2(region), area);
    share(perimeterMm(region), perimeter);
    share(narrowestMm(region), narrowest);
    share(centroid(region)?.x, middle[0]);
    share(centroid(region)?.y, middle[1]);
  },
);

test("G2 of several sections the smallest one's span counts", () => {
  share(narrowestMm(regionFrom(circlePath(30, 30, 20) + circlePath(80, 30, 6))), 12);
});

// The length of the parabola y = x² from 0 to 1: √5/2 + asinh(2)/4.
test("G1 the length of a curve and of a closed line", () => {
  const [arc] = flattened(pathFrom("M0 0Q50 0 100 100"));
  share(lengthMm(arc!), 100 * (Math.sqrt(5) / 2 + Math.asinh(2) / 4));
  const [round] = flattened(pathFrom(circlePath(0, 0, 25)));
  share(lengthMm(round!), 50 * Math.PI);
});

// Jakob Steiner's formula (1840) for convex bodies, outwards A + P m + π m²; inwards it holds for the circle.
test.each([
  ["circle", circlePath(30, 30, 20)],
  ["square", "M10 10h40v40h-40z"],
  ["oblong", "M0 0H80V12H0Z"],
  ["triangle", "M0 0H60L20 50Z"],
])("G3 a %s grown by a margin has the area of Steiner's formula", (_name, d) => {
  const region = regionFrom(d);
  for (const m of [1, 3, 10])
    share(areaMm2(inset(region, -m)), areaMm2(region) + perimeterMm(region) * m + Math.PI * m * m);
});

test("G3 a margin kept free leaves A − P m + π m² of a circle, straight sides of a square, and nothing of a strip", () => {
  share(areaMm2(inset(regionFrom(circlePath(30, 30, 20)), 3)), Math.PI * 17 ** 2);
  share(areaMm2(inset(regionFrom("M10 10h40v40h-40z"), 3)), 34 ** 2);
  share(
    areaMm2(inset(regionFrom(circlePath(30, 30, 20) + circlePath(30, 30, 10)), 3)),
    Math.PI * (17 ** 2 - 13 ** 2),
  );
  expect(inset(regionFrom("M0 0H80V5H0Z"), 3)).toEqual([]);
});
