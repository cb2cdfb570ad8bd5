import { describe, expect, test } from "vitest";
import {
  batchesFor,
  beadVolumeMl,
  floodedAreaMm2,
  floodVolumeMl,
  massOfG,
} from "#shared/icing/quantities.ts";
import { figureShape, rectangleShape, roundShape } from "#shared/icing/outline-shape.ts";
import { CUP_ML } from "#shared/units.ts";

describe("volumes and masses", () => {
  test("a flood is area by thickness by coverage, weighed by density", () => {
    expect(floodVolumeMl(2000, 2.4)).toBeCloseTo(4.8, 12);
    expect(floodVolumeMl(2000, 2.4, 0.25)).toBeCloseTo(1.2, 12);
    expect(massOfG(4.8)).toBeCloseTo(6.48, 12);
    expect(massOfG(4.8, 1000)).toBe(4.8);
  });

  // 200 mm of 2 mm bead: π mm² × 200 mm = 628 mm³.
  test("a bead is as long as its line and as thick as the opening", () => {
    expect(beadVolumeMl(200, 2)).toBeCloseTo(0.6283, 4);
  });

  test("a margin wider than the cookie leaves nothing", () => {
    expect(floodedAreaMm2(roundShape(40), 20)).toBe(0);
    expect(floodedAreaMm2(roundShape(40), 35)).toBe(0);
    expect(floodedAreaMm2(rectangleShape(100, 10), 6)).toBe(0);
  });

  test("a figure is smaller than its box and longer round than an oval", () => {
    const figure = figureShape(90, 90);
    expect(figure.areaMm2).toBeCloseTo(0.65 * 8100, 9);
    expect(figure.perimeterMm).toBeGreaterThan(roundShape(90).perimeterMm);
    expect(floodedAreaMm2(figure, 3)).toBeGreaterThan(0);
  });
});

describe("I7 batches by colour and consistency, with waste, rounded up", () => {
  const needs = [
    { colour: "butter", consistency: "flood", volumeMl: 100 },
    { colour: "storm", consistency: "flood", volumeMl: 40 },
    { colour: "butter", consistency: "flood", volumeMl: 10 },
    { colour: "butter", consistency: "outline", volumeMl: 0 },
  ] as const;

  test("sums, adds a tenth, rounds up to quarter cups", () => {
    const [flood, storm, outline] = batchesFor(needs);
    // 110 mL × 1.1 = 121 mL: three quarter cups of 59.15 mL.
    expect(flood).toMatchObject({ colour: "butter", consistency: "flood", needMl: 110, batches: 3 });
    expect(flood!.mixMl).toBeCloseTo(0.75 * CUP_ML, 9);
    expect(flood!.mixG).toBeCloseTo(0.75 * CUP_ML * 1.35, 9);
    expect(storm).toMatchObject({ colour: "storm", batches: 1 });
    expect(outline).toMatchObject({ consistency: "outline", batches: 0, mixMl: 0 });
  });

  test("waste, batch and density are the kitchen's", () => {
    const [flood] = batchesFor(needs, { wasteShare: 0, batchMl: 55, densityKgM3: 1200 });
    expect(flood).toMatchObject({ batches: 2, mixMl: 110, mixG: 132 });
  });
});

test("bad figures are refused by name", () => {
  expect(() => floodVolumeMl(2000, 20)).toThrow("thicknessMm must be 0.2–12 mm");
  expect(() => floodVolumeMl(2000, 2, 1.5)).toThrow("coverage must be 0–1");
  expect(() => beadVolumeMl(100, 0)).toThrow("openingMm must be 0.3–10 mm");
  expect(() => floodedAreaMm2(roundShape(60), -1)).toThrow("marginMm must be 0–1000 mm");
  expect(() => floodedAreaMm2({ areaMm2: 5000, perimeterMm: 100 }, 1)).toThrow(
    "perimeterMm is too short for areaMm2",
  );
  expect(() => batchesFor([], { wasteShare: 2 })).toThrow("wasteShare must be 0–1");
  expect(() => batchesFor([], { batchMl: 0 })).toThrow("batchMl must be 1–100000 mL");
});
