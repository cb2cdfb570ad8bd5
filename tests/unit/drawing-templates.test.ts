import { describe, expect, test } from "vitest";
import type { Drawing } from "#shared/drawing/drawing.ts";
import { makeDrawing, regionOfData } from "#shared/drawing/make-drawing.ts";
import { measureDrawing } from "#shared/drawing/measures.ts";
import { TEMPLATE_NAMES, TEMPLATES, type TemplateName } from "#shared/drawing/templates/templates.ts";
import { liesWithin, overlapMm2 } from "#shared/geometry/crossing.ts";
import { areaMm2, inset } from "#shared/geometry/region.ts";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";

function drawn(name: TemplateName, widthMm: number, heightMm?: number, marginMm?: number): Drawing {
  const drawing = TEMPLATES[name]({
    widthMm,
    ...(heightMm !== undefined && { heightMm }),
    ...(marginMm !== undefined && { marginMm }),
  });
  if (!drawing.ok) throw new Error(`${name}: ${JSON.stringify(drawing.refusal)}`);
  return drawing.value;
}

const idsOf = ({ areas, lines }: Drawing): string[] => [...areas, ...lines].map(({ id }) => id);

test("G9 there are at least eighteen templates", () => {
  expect(TEMPLATE_NAMES.length).toBeGreaterThanOrEqual(18);
});

describe.each(TEMPLATE_NAMES)("G9 %s", (name) => {
  test.each([40, 80, 150])("at %i mm: sound, in its margin, its areas apart, the same parts", (widthMm) => {
    const drawing = drawn(name, widthMm, undefined, 3);
    expect(Math.abs(drawing.widthMm - widthMm)).toBeLessThan(0.05);
    // Whatever crosses itself or lies outside is refused there.
    expect(makeDrawing(drawing).ok).toBe(true);
    expect(idsOf(drawing)).toEqual(idsOf(drawn(name, 80)));
    expect(drawing.areas.length).toBeGreaterThan(0);
    const field = inset(regionOfData(drawing.outline), 3);
    const regions = drawing.areas.map(({ d }) => regionOfData(d));
    for (const [k, region] of regions.entries()) {
      expect(liesWithin(region, field, 0.1)).toBe(true);
      for (const other of regions.slice(k + 1))
        expect(overlapMm2(region, other)).toBeLessThan(0.01 * Math.min(areaMm2(region), areaMm2(other)));
    }
    // What is not in an area is margin, or a corner that icing does not reach.
    const iced = regions.reduce((sum, region) => sum + areaMm2(region), 0);
    expect(iced / areaMm2(field)).toBeGreaterThan(0.88);
  });

  test("stretched, twice as large, and as small as a bite", () => {
    const usual = measureDrawing(drawn(name, 60, undefined, 0)).outline;
    const twice = measureDrawing(drawn(name, 120, undefined, 0)).outline;
    expect(twice.areaMm2 / usual.areaMm2).toBeCloseTo(4, 1);
    const stretched = drawn(name, 60, 100);
    expect(Math.abs(stretched.heightMm - 100)).toBeLessThan(0.05);
    expect(drawn(name, 16).areas.length).toBeGreaterThan(0);
  });

  test("G10 it and each of its parts has a name in each language", () => {
    for (const { drawings } of [english("metric", "UTC"), spanish("metric", "UTC")]) {
      expect(drawings.templates[name]).toMatch(/^\p{Lu}/u);
      for (const id of idsOf(drawn(name, 80)))
        expect(Object.keys(drawings.parts), id).toContain(id.replace(/-\d+$/, ""));
      expect(drawings.part("petal-3")).toMatch(/^(petal|pétalo) 3$/);
    }
  });
});

test("G9 sizes that no cookie has, and margins that leave nothing, are faults", () => {
  const codes = [
    TEMPLATES.kite({ widthMm: 5 }),
    TEMPLATES.kite({ widthMm: 350 }),
    TEMPLATES.kite({ widthMm: Number.NaN }),
    TEMPLATES.kite({ widthMm: 80, marginMm: 39 }),
  ].map((drawing) => !drawing.ok && drawing.refusal.code);
  expect(codes).toEqual(["size", "size", "size", "margin"]);
});
