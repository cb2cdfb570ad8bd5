import type { Drawing } from "#shared/drawing/drawing.ts";
import { circle, ellipse, rectangle } from "#shared/drawing/templates/strokes.ts";
import { type Template, templateOf } from "#shared/drawing/templates/template.ts";
import { TEMPLATES } from "#shared/drawing/templates/templates.ts";

/** A raindrop whose tip is at this point. */
const drop = (x: number, y: number): string =>
  `M${x} ${y}C${x + 5} ${y + 8} ${x + 6} ${y + 11} ${x + 5} ${y + 15}A6 6 0 0 1 ${x - 5} ${y + 15}C${x - 6} ${y + 11} ${x - 5} ${y + 8} ${x} ${y}Z`;

/** What the invented designs look like, by id. */
const SKETCHES = {
  lantern: templateOf({
    outline: "M40 8Q50 -4 60 8L64 18L88 34V42H82L88 92H94V108H6V92H12L18 42H12V34L36 18Z",
    areas: [
      { id: "flame", d: "M50 50C59 61 61 68 58 75C55 81 45 81 42 75C39 68 44 60 50 50Z" },
      { id: "glass", d: "M20 44H80L85 90H15Z" },
    ],
    lines: [
      { id: "roof", d: "M12 42H88" },
      { id: "sill", d: "M12 92H88" },
      { id: "bar-left", d: "M33 42L29 92" },
      { id: "bar-right", d: "M67 42L71 92" },
    ],
  }),
  puffin: templateOf({
    outline:
      "M50 2C70 2 82 12 84 26L102 34L84 46C86 54 90 62 90 76C90 100 74 118 52 118C28 118 12 100 12 74C12 58 18 50 20 34C20 14 32 2 50 2Z",
    areas: [
      { id: "beak", d: "M77 22L110 34L77 50Q72 36 77 22Z" },
      { id: "face", d: ellipse(58, 27, 15, 13) },
      { id: "breast", d: ellipse(58, 82, 22, 28) },
      { id: "back" },
    ],
    lines: [{ id: "eye", d: circle(60, 26, 3) }],
  }),
  "rock-pool": templateOf({
    outline: circle(50, 50, 50),
    areas: [
      { id: "weed-1", d: "M26 80C16 64 30 58 24 42C38 54 34 66 40 80Z" },
      { id: "weed-2", d: "M46 84C40 70 52 64 48 48C62 62 56 74 60 84Z" },
      { id: "water" },
    ],
    lines: [
      { id: "foam-1", d: "M12 36q6.5 -7 13 0t13 0t13 0t13 0t13 0t13 0" },
      { id: "foam-2", d: "M22 22q7 -6 14 0t14 0t14 0t14 0" },
    ],
  }),
  "tide-star": TEMPLATES.star,
  pear: templateOf({
    outline:
      "M44 6Q50 -2 56 6L57 14C66 18 68 28 70 40C74 54 90 62 90 84C90 106 72 118 50 118C28 118 10 106 10 84C10 62 26 54 30 40C32 28 34 18 43 14Z",
    areas: [{ id: "blush", d: ellipse(66, 84, 13, 19) }, { id: "fruit" }],
    lines: [
      { id: "stalk", d: "M50 22V8" },
      { id: "leaf", d: "M50 32Q55 22 64 30Q58 38 50 32Z" },
    ],
  }),
  "rain-cloud": templateOf({
    outline:
      "M20 62C4 62 -2 50 3 40C7 30 16 27 23 29C26 13 42 4 56 10C66 4 80 9 84 23C97 25 104 35 100 47C97 57 90 62 82 62L85 84Q86 97 72 95Q61 93 50 98Q39 93 28 95Q14 97 15 84Z",
    areas: [
      { id: "drop-1", d: drop(30, 67) },
      { id: "drop-2", d: drop(50, 67) },
      { id: "drop-3", d: drop(70, 67) },
      { id: "cloud", d: rectangle(-10, -10, 120, 73) },
    ],
    lines: [],
  }),
  heather: templateOf({
    outline: ellipse(40, 50, 40, 50),
    areas: [{ id: "ground" }],
    lines: [
      { id: "stem", d: "M40 88C37 66 43 40 40 16" },
      ...[24, 36, 48, 60].flatMap((y) => [
        { id: `flower-left-${y}`, d: circle(32, y, 3.2) },
        { id: `flower-right-${y}`, d: circle(48, y + 5, 3.2) },
      ]),
    ],
  }),
  limpet: templateOf({
    outline: circle(50, 50, 50),
    areas: [{ id: "ring", d: `${circle(50, 50, 28)}${circle(50, 50, 17)}` }, { id: "shell" }],
    lines: [],
  }),
} satisfies Record<string, Template>;

/** The drawing of an invented design, as wide as it is said to be, or as high where it is higher. */
export function drawingOf(id: string, sizeMm: number): Drawing {
  const template = (SKETCHES as Readonly<Record<string, Template>>)[id];
  if (template === undefined) throw new Error(`no drawing of ${id}`);
  const wide = template({ widthMm: sizeMm });
  if (!wide.ok) throw new Error(`${id}: ${wide.refusal.code}`);
  const { widthMm, heightMm } = wide.value;
  if (heightMm <= widthMm) return wide.value;
  const high = template({ widthMm: (sizeMm * widthMm) / heightMm });
  if (!high.ok) throw new Error(`${id}: ${high.refusal.code}`);
  return high.value;
}
