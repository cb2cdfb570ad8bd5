import * as fc from "fast-check";
import { expect, test } from "vitest";
import { importSvg } from "#shared/drawing/import-svg.ts";
import { measureDrawing } from "#shared/drawing/measures.ts";
import { TEMPLATE_NAMES, TEMPLATES } from "#shared/drawing/templates/templates.ts";
import { svgOf } from "#tests/support/shapes.ts";

const near = (a: number, b: number): void =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(0.01 * Math.abs(a) + 0.05);

test("G14 a drawing saved as SVG and imported again has the same measures", () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...TEMPLATE_NAMES),
      fc.integer({ min: 30, max: 200 }),
      fc.integer({ min: 1, max: 3 }),
      (name, widthMm, marginMm) => {
        const drawing = TEMPLATES[name]({ widthMm, marginMm });
        if (!drawing.ok) throw new Error(JSON.stringify(drawing.refusal));
        const again = importSvg(svgOf(drawing.value));
        if (!again.ok) throw new Error(JSON.stringify(again.refusal));
        const [one, other] = [measureDrawing(drawing.value), measureDrawing(again.value)];
        near(one.outline.areaMm2, other.outline.areaMm2);
        const [areas, areasAgain] = [[...one.areas.values()], [...other.areas.values()]];
        expect(areasAgain.length).toBe(areas.length);
        for (const [k, area] of areas.entries()) {
          near(area.areaMm2, areasAgain[k]!.areaMm2);
          near(area.perimeterMm, areasAgain[k]!.perimeterMm);
          near(area.narrowestMm, areasAgain[k]!.narrowestMm);
        }
        const lengths = [...other.lineLengthsMm.values()];
        for (const [k, lengthMm] of [...one.lineLengthsMm.values()].entries()) near(lengthMm, lengths[k]!);
        expect(other.touching.length).toBe(one.touching.length);
        expect(again.value.lines.map(({ widthMm }) => widthMm)).toEqual(
          drawing.value.lines.map(({ widthMm }) => widthMm),
        );
      },
    ),
    { numRuns: 30 },
  );
});

test("G15 whatever text is imported, there is a drawing or a fault, never an error", () => {
  const piece = fc.constantFrom(
    "<svg>",
    "</svg>",
    "<g ",
    'transform="scale(0)"',
    ">",
    "</g>",
    '<path d="M0 0L9 9 0 9Z"/>',
    '<rect width="50" height="1e3"/>',
    "M",
    "&amp;",
    "&x;",
    "<!--",
    "-->",
    "]]>",
    '<circle r="',
    '20"/>',
    "<use/>",
    'style="fill:none"',
    "\u0000",
    "<svg width='9mm' viewBox='0 0 0 9'>",
    "<path d='M0 0C1 1 NaN'/>",
  );
  fc.assert(
    fc.property(
      fc.oneof(
        fc.string(),
        fc.array(piece, { maxLength: 30 }).map((all) => all.join("")),
      ),
      (text) => {
        expect(importSvg(text, { widthMm: 80 })).toHaveProperty("ok");
        expect(importSvg(`<svg>${text}</svg>`, { widthMm: 80 })).toHaveProperty("ok");
      },
    ),
    { numRuns: 500 },
  );
});
