import { makeDrawing } from "#shared/drawing/make-drawing.ts";
import { type Drawing, DRAWING_LIMITS, type DrawnArea, type DrawnLine } from "#shared/drawing/drawing.ts";
import type { DrawingFault } from "#shared/drawing/drawing-fault.ts";
import { flattened } from "#shared/geometry/flatten.ts";
import {
  closed,
  type Matrix,
  parsePath,
  type Path,
  pathOfRings,
  pathText,
  transformed,
} from "#shared/geometry/path.ts";
import { boxOf, type Point } from "#shared/geometry/point.ts";
import {
  areaMm2,
  common,
  inset,
  lineWithin,
  type Region,
  regionOf,
  ringsOf,
  rounded,
  simplified,
  together,
  without,
} from "#shared/geometry/region.ts";
import { type Outcome, refused } from "#shared/outcome.ts";

/** A cookie drawn in units of its own, to be stretched to any size. */
export interface Sketch {
  outline: string;
  /**
   * Areas, each within the outline less its margin. Each takes what those before it left of its path, the one without a
   * path all that is left.
   */
  areas: readonly { id: string; d?: string }[];
  /** Lines, cut off at the margin. */
  lines: readonly { id: string; d: string }[];
}

export interface TemplateSize {
  widthMm: number;
  /** As the sketch has it, unless told. */
  heightMm?: number;
  /** Kept free at the cookie's edge; 3 mm unless told, and less on a small cookie. Common practice, no source. */
  marginMm?: number;
}

/** A template: a drawing for each size. What a cookie is too small for is left out. */
export type Template = (size: TemplateSize) => Outcome<Drawing, DrawingFault>;

const MARGIN_MM = 3;
/** The most of a small cookie's shorter side that is kept free. */
const MARGIN_SHARE = 0.08;
/** Points that lie so near the line without them, mm, are left out. */
const SIMPLER_MM = 0.05;
/** A piece of an area under this share of it is a crumb that margins left over. */
const CRUMB = 0.03;

/** The template that stretches a sketch. */
export function templateOf({ outline, areas, lines }: Sketch): Template {
  return ({ widthMm, heightMm, marginMm }) => {
    const box = boxOf(flattened(sketched(outline), 0.001).flatMap(({ points }) => points))!;
    const natural = { width: box.right - box.left, height: box.bottom - box.top };
    const scale = widthMm / natural.width;
    const stretch = (heightMm ?? natural.height * scale) / natural.height;
    const toMm: Matrix = [scale, 0, 0, stretch, -box.left * scale, -box.top * stretch];
    const inMm = (d: string): Path => transformed(sketched(d), toMm);
    const tallMm = natural.height * stretch;
    const { min: minMm, max: maxMm } = DRAWING_LIMITS.sizeMm;
    if (![widthMm, tallMm].every((mm) => mm >= minMm - 0.01 && mm <= maxMm + 0.01))
      return refused({ code: "size", widthMm, heightMm: tallMm, minMm, maxMm });
    const shortMm = Math.min(widthMm, tallMm);
    const freeMm = marginMm ?? Math.min(MARGIN_MM, MARGIN_SHARE * shortMm);
    if (!(freeMm >= 0 && freeMm < shortMm / 2)) return refused({ code: "margin", marginMm: freeMm });
    const cookie = inMm(outline);
    const field = inset(regionOf(cookie), freeMm);
    const cutAreas = cut(field, areas, inMm, Math.min(1, shortMm * 0.012));
    if (cutAreas.length === 0) return refused({ code: "margin", marginMm: freeMm });
    return makeDrawing({
      outline: pathText(cookie),
      areas: cutAreas,
      lines: [
        ...lines.map(({ id, d }) => pipedLine(id, inMm(d), field, shortMm)),
        edgeOf(field, shortMm),
      ].filter(isDrawn),
    });
  };
}

/** The areas of a field, in the sketch's order. */
function cut(
  field: Region,
  areas: Sketch["areas"],
  inMm: (d: string) => Path,
  cornerMm: number,
): DrawnArea[] {
  let taken: Region = [];
  const all = areas.map(({ id, d }) => {
    const free = without(field, taken);
    const own = d === undefined ? free : common(free, regionOf(closed(inMm(d))));
    taken = together(taken, own);
    const region = withoutCrumbs(simplified(rounded(own, cornerMm), SIMPLER_MM));
    return { id, d: pathText(pathOfRings(ringsOf(region))) };
  });
  return all.filter(isDrawn);
}

const isDrawn = ({ d }: { d: string }): boolean => d !== "";

const withoutCrumbs = (region: Region): Region =>
  region.filter((piece) => areaMm2([piece]) > CRUMB * areaMm2(region));

/** Piped lines are about as wide as the tip's opening, on a small cookie finer. Common practice, no source. */
const lineWidthMm = (shortMm: number): number => Math.min(2, Math.max(1, Math.round(shortMm * 0.25) / 10));

function pipedLine(id: string, path: Path, field: Region, shortMm: number): DrawnLine {
  const pieces = flattened(path, SIMPLER_MM).flatMap(({ points, isClosed }) => {
    const whole = isClosed ? [...points, points[0]!] : points;
    return lineWithin(whole, field).map((inside) => ({
      points: inside,
      isWhole: isClosed && isSame(inside, whole),
    }));
  });
  const d = pieces.map(({ points, isWhole }) =>
    pathText(pathOfRings([isWhole ? points.slice(0, -1) : points], isWhole)),
  );
  return { id, d: d.join(""), widthMm: lineWidthMm(shortMm) };
}

const isSame = (piece: readonly Point[], whole: readonly Point[]): boolean =>
  piece.length === whole.length && piece[0]!.x === piece.at(-1)!.x && piece[0]!.y === piece.at(-1)!.y;

/** The line piped around all that is flooded. */
const edgeOf = (field: Region, shortMm: number): DrawnLine => ({
  id: "edge",
  d: pathText(pathOfRings(ringsOf(simplified(field, SIMPLER_MM)))),
  widthMm: lineWidthMm(shortMm),
});

function sketched(d: string): Path {
  const path = parsePath(d);
  if (!path.ok) throw new Error(`a sketch with a bad path: ${d}`);
  return path.value;
}
