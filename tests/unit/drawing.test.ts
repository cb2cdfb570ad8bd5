import * as v from "valibot";
import { describe, expect, test } from "vitest";
import { Drawing } from "#shared/drawing/drawing.ts";
import { makeDrawing, regionOfData, type DrawingInput } from "#shared/drawing/make-drawing.ts";
import { coverageOf, doLayersTouch, measureDrawing } from "#shared/drawing/measures.ts";
import {
  polygonDrawing,
  rectangleDrawing,
  ringDrawing,
  roundDrawing,
  ovalDrawing,
} from "#shared/drawing/shapes.ts";
import { areaMm2, inset } from "#shared/geometry/region.ts";
import { TEMPLATES } from "#shared/drawing/templates/templates.ts";
import { circlePath } from "#tests/support/shapes.ts";

const outline = "M10 10h80v60h-80z";
const made = (input: Partial<DrawingInput>): Drawing => {
  const drawing = makeDrawing({ outline, areas: [], lines: [], ...input });
  if (!drawing.ok) throw new Error(JSON.stringify(drawing.refusal));
  return drawing.value;
};
const faultOf = (input: Partial<DrawingInput>): unknown => {
  const drawing = makeDrawing({ outline, areas: [], lines: [], ...input });
  return drawing.ok ? undefined : drawing.refusal;
};
const whole = <Value>(outcome: { ok: true; value: Value } | { ok: false; refusal: unknown }): Value => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusal));
  return outcome.value;
};

test("G6 paths become absolute M, L, C and Z in mm to a hundredth, from the outline's corner", () => {
  const drawing = made({
    areas: [{ id: "sun", d: "m30.004,30 q10 0 10 10 t-10 10z" }],
    lines: [{ id: "stem", d: "M20 20v10a5 5 0 0 1 5 5", widthMm: 1.5 }],
  });
  expect(drawing.outline).toBe("M0 0L80 0L80 60L0 60Z");
  expect([drawing.widthMm, drawing.heightMm]).toEqual([80, 60]);
  expect(drawing.areas[0]!.d).toBe("M20 20C26.67 20 30 23.33 30 30C30 36.67 26.67 40 20 40Z");
  expect(drawing.lines[0]!.d).toMatch(/^M10 10L10 20C[\d. ]+ 15 25$/);
  expect(v.parse(Drawing, drawing)).toEqual(drawing);
});

test("G6 a drawing made again is the same", () => {
  for (const template of Object.values(TEMPLATES)) {
    const drawing = whole(template({ widthMm: 70 }));
    const again = made(drawing);
    expect(v.parse(Drawing, again)).toEqual(again);
    expect(made(again)).toEqual(again);
    expect(again.widthMm).toBeCloseTo(drawing.widthMm, 1);
  }
});

test.each([
  ["relative data", "m0 0l10 0l0 10z"],
  ["a script", "M0 0L1 1Z<script>"],
  ["an arc", "M0 0A5 5 0 0 1 9 9Z"],
  ["nothing", ""],
  ["an open outline", "M0 0L80 0L80 60"],
])("G6 a stored outline of %s is refused", (_what, d) => {
  expect(v.safeParse(Drawing, { ...made({}), outline: d }).success).toBe(false);
});

describe("G7 what is too much is a fault with its figures", () => {
  const dot = (k: number): string => circlePath(20 + (k % 60), 20 + Math.floor(k / 60) * 3, 0.5);
  test.each([
    [
      { areas: Array.from({ length: 41 }, (_, k) => ({ id: `a${k}`, d: dot(k) })) },
      { code: "too many areas", count: 41, most: 40 },
    ],
    [
      { lines: Array.from({ length: 61 }, (_, k) => ({ id: `l${k}`, d: dot(k), widthMm: 1 })) },
      { code: "too many lines", count: 61, most: 60 },
    ],
    [
      { lines: [{ id: "l", d: `M20 20${"l.01 0".repeat(2000)}`, widthMm: 1 }] },
      { code: "too many points", most: 2000 },
    ],
    [{ outline: "M0 0h401v60h-401z" }, { code: "size", widthMm: 401, heightMm: 60, minMm: 10, maxMm: 400 }],
    [{ outline: "M0 0h9v60h-9z" }, { code: "size", widthMm: 9, heightMm: 60, minMm: 10, maxMm: 400 }],
    [
      { lines: [{ id: "l", d: "M20 20h9", widthMm: 25 }] },
      { code: "line width", part: "l", minMm: 0.3, maxMm: 20 },
    ],
    [
      { lines: [{ id: "l", d: `M20 20${"h60h-60".repeat(60)}`, widthMm: 1 }] },
      { code: "too intricate", part: "l" },
    ],
  ])("%#", (input, fault) => {
    expect(faultOf(input)).toEqual(fault);
  });
});

describe("G8 forms that are no cookie are faults that name the part", () => {
  test.each([
    [{ outline: "M0 0L80 60V0L0 60Z" }, { code: "outline crosses itself" }],
    [{ outline: "M0 0h40v40h-40zM50 0h40v40h-40z" }, { code: "outline in pieces" }],
    [{ outline: "nonsense" }, { code: "bad path" }],
    [
      { areas: [{ id: "a", name: "Sail", d: "M20 20L60 60V20L20 60Z" }] },
      { code: "area crosses itself", part: "Sail" },
    ],
    [{ areas: [{ id: "a", d: "M70 20h40v20h-40z" }] }, { code: "outside outline", part: "a" }],
    [{ areas: [{ id: "a", d: "M20 20h30" }] }, { code: "no area", part: "a" }],
    [{ areas: [{ id: "a", d: "M20 20 30" }] }, { code: "bad path", part: "a" }],
    [{ lines: [{ id: "l", d: "M20 20H120", widthMm: 1 }] }, { code: "outside outline", part: "l" }],
    [
      { areas: [{ id: "a", d: circlePath(40, 40, 5) }], lines: [{ id: "a", d: "M20 20h9", widthMm: 1 }] },
      { code: "same id", part: "a" },
    ],
  ])("%#", (input, fault) => {
    expect(faultOf(input)).toEqual(fault);
  });

  test("an area may share the outline's edge, and lie over another", () => {
    expect(
      faultOf({
        areas: [
          { id: "all", d: outline },
          { id: "eye", d: circlePath(40, 40, 5) },
        ],
      }),
    ).toBeUndefined();
  });
});

test("G1 G5 a kite's measures: opposite sections do not touch, neighbours under the cross do", () => {
  const kite = measureDrawing(whole(TEMPLATES.kite({ widthMm: 80 })));
  expect(doLayersTouch(kite, ["top-left"], ["bottom-right"])).toBe(false);
  expect(doLayersTouch(kite, ["top-left", "bottom-right"], ["top-right"])).toBe(true);
  expect(doLayersTouch(kite, ["top-left"], ["spine"])).toBe(true);
  const { areaMm2, lineLengthMm, narrowestMm } = coverageOf(kite, [
    "top-left",
    "top-right",
    "spar",
    "unknown",
  ]);
  expect(areaMm2).toBeCloseTo(kite.areas.get("top-left")!.areaMm2 + kite.areas.get("top-right")!.areaMm2, 6);
  expect(lineLengthMm).toBeGreaterThan(65);
  expect(narrowestMm).toBe(
    Math.min(kite.areas.get("top-left")!.narrowestMm, kite.areas.get("top-right")!.narrowestMm),
  );
  expect(coverageOf(kite, ["spar"])).not.toHaveProperty("narrowestMm");
});

describe("G16 simple shapes have the size and the field their figures say", () => {
  test.each([
    ["round", roundDrawing(80), 80, 80, Math.PI * 37 ** 2],
    ["oval", ovalDrawing(80, 80, 5), 80, 80, Math.PI * 35 ** 2],
    ["rectangle", rectangleDrawing(90, 60), 90, 60, 84 * 54],
    ["rounded rectangle", rectangleDrawing(90, 60, 10, 0), 90, 60, 90 * 60 - (4 - Math.PI) * 100],
    ["ring", ringDrawing(80, 30), 80, 80, Math.PI * (37 ** 2 - 18 ** 2)],
    ["hexagon", polygonDrawing(80, 6, 0), 69.28, 80, (3 / 2) * Math.sqrt(3) * 40 ** 2],
    ["triangle", polygonDrawing(80, 3, 0), 69.28, 60, (3 / 4) * Math.sqrt(3) * 40 ** 2],
  ])("%s", (_name, shape, widthMm, heightMm, areaMm2) => {
    const drawing = whole(shape);
    expect(drawing.widthMm).toBeCloseTo(widthMm, 1);
    expect(drawing.heightMm).toBeCloseTo(heightMm, 1);
    // Corners are rounded by a millimetre at most.
    expect(Math.abs(measureDrawing(drawing).areas.get("field")!.areaMm2 / areaMm2 - 1)).toBeLessThan(0.01);
  });

  test("figures that no cookie has are faults", () => {
    const codes = [
      roundDrawing(Number.NaN),
      roundDrawing(500),
      rectangleDrawing(0, 50),
      ringDrawing(-5, 2),
      polygonDrawing(9, 6),
    ];
    expect(codes.map((shape) => !shape.ok && shape.refusal.code)).toEqual(codes.map(() => "size"));
    const margins = [roundDrawing(50, 25), ringDrawing(50, 48, 3), roundDrawing(50, -1)];
    expect(margins.map((shape) => !shape.ok && shape.refusal.code)).toEqual(margins.map(() => "margin"));
  });
});

test("G3 what a margin leaves of a drawing", () => {
  const left = inset(regionOfData(whole(roundDrawing(80)).outline), 3);
  expect(areaMm2(left) / (Math.PI * 37 ** 2)).toBeCloseTo(1, 2);
});
