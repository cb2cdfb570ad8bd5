import { describe, expect, test } from "vitest";
import { flattened } from "#shared/geometry/flatten.ts";
import { areaPart, doMeetUnder, doTouch, linePart, type Part } from "#shared/geometry/touching.ts";
import { circlePath, pathFrom, regionFrom } from "#tests/support/shapes.ts";

const area = (d: string): Part => areaPart(regionFrom(d));
const line = (d: string, widthMm: number): Part => linePart(flattened(pathFrom(d)), widthMm);
const square = (x: number, y: number): Part => area(`M${x} ${y}h20v20h-20z`);

describe("G5 areas", () => {
  test.each([
    ["side by side", square(0, 0), square(20, 0), true],
    ["0.3 mm apart", square(0, 0), square(20.3, 0), true],
    ["1 mm apart", square(0, 0), square(21, 0), false],
    ["corner to corner", square(0, 0), square(20, 20), false],
    ["2 mm along", square(0, 0), square(20, 18), true],
    ["one inside the other", square(0, 0), area(circlePath(10, 10, 2)), true],
    [
      "one in the other's hole, apart",
      area(circlePath(30, 30, 20) + circlePath(30, 30, 15)),
      area(circlePath(30, 30, 8)),
      false,
    ],
  ])("%s", (_how, a, b, isTouching) => {
    expect(doTouch(a, b)).toBe(isTouching);
    expect(doTouch(b, a)).toBe(isTouching);
  });
});

describe("G5 lines", () => {
  test.each([
    ["along an edge", line("M-5 -1H30", 2), true],
    ["past it", line("M-5 -3H30", 2), false],
    ["wider, past it", line("M-5 -3H30", 6), true],
    ["across", line("M-5 10H30", 1), true],
    ["a dot on it", line(circlePath(10, 10, 0.1), 1), true],
  ])("%s", (_how, drawn, isTouching) => {
    expect(doTouch(square(0, 0), drawn)).toBe(isTouching);
  });

  test("two areas meet under a line over the gap between them, and not corner to corner", () => {
    const gap = line("M21 -5V25", 2);
    expect(doTouch(square(0, 0), square(22, 0))).toBe(false);
    expect(doMeetUnder(gap, square(0, 0), square(22, 0))).toBe(true);
    expect(doMeetUnder(gap, square(0, 0), square(22, 22))).toBe(false);
    expect(doMeetUnder(line("M21 -5V25", 0.5), square(0, 0), square(22, 0))).toBe(false);
  });
});
