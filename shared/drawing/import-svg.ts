import { doRingsCross, isScribble } from "#shared/geometry/crossing.ts";
import { flattened } from "#shared/geometry/flatten.ts";
import {
  closed,
  type Path,
  pathOfRings,
  pathText,
  pointsOf,
  roughBoxOf,
  scaleOf,
  subpathsOf,
  transformed,
} from "#shared/geometry/path.ts";
import { boxOf, distanceMm, type Ring, twiceArea, windingOf } from "#shared/geometry/point.ts";
import { areaMm2, inset, regionOf, regionOfRings, ringsOf, simplified } from "#shared/geometry/region.ts";
import { type Outcome, refused } from "#shared/outcome.ts";
import { type Drawing, DRAWING_LIMITS, type DrawnArea, type DrawnLine } from "./drawing.ts";
import type { SvgFault } from "./drawing-fault.ts";
import { isIntricate, makeDrawing } from "./make-drawing.ts";
import { readSvg, type SvgShape } from "./svg/read-svg.ts";
import { userUnits } from "./svg/lengths.ts";
import { colourOf } from "./svg/style.ts";

export interface SvgOptions {
  /** How wide the cookie is; as the file's own units say, unless told. */
  widthMm?: number;
  /** Kept free at the edge of a cookie that has nothing on it but its outline. */
  marginMm?: number;
}

/** An area of less than this, mm², is a stray click. */
const STRAY_MM2 = 1;
const MARGIN_MM = 3;

/**
 * The drawing in an SVG's text: the largest closed shape is the outline, other closed shapes with a fill are areas,
 * strokes without a fill are lines. Only paths and colours are kept.
 */
export function importSvg(
  text: string,
  { widthMm, marginMm = MARGIN_MM }: SvgOptions = {},
): Outcome<Drawing, SvgFault> {
  const read = readSvg(text);
  if (!read.ok) return read;
  const { shapes, unitMm } = read.value;
  const sized = shapes.map((shape) => ({ shape, size: isClosed(shape) ? sizeOf(shape.path) : 0 }));
  const largest = sized.reduce((most, each) => (each.size > (most?.size ?? 0) ? each : most), sized[0]);
  if (largest === undefined || largest.size === 0) return refused({ code: "no closed path" });
  const outline = largest.shape;
  const box = boxOf(flattened(outline.path).flatMap(({ points }) => points))!;
  const toMm = widthMm === undefined ? unitMm : widthMm / (box.right - box.left);
  if (toMm === undefined) return refused({ code: "no width" });
  const inMm = (path: Path): Path => transformed(path, [toMm, 0, 0, toMm, -box.left * toMm, -box.top * toMm]);
  const others = shapes
    .filter((shape) => shape !== outline)
    .map((shape) => ({
      ...shape,
      path: inMm(shape.path),
      matrix: shape.matrix.map((n) => n * toMm) as unknown as SvgShape["matrix"],
    }));
  const outer = inMm(closed(outline.path));
  const acrossMm = (box.right - box.left + box.bottom - box.top) * toMm;
  if (isIntricate(outer, acrossMm)) return refused({ code: "too intricate" });
  if (doRingsCross(ringsOfPath(outer))) return refused({ code: "outline crosses itself" });
  const areas = others.filter(isArea).filter(({ path }) => sizeOf(path) > STRAY_MM2);
  const lines = others.filter((shape) => !isArea(shape) && isLine(shape));
  const drawn: DrawnArea[] = [];
  for (const [k, area] of areas.entries()) {
    const id = `area-${k + 1}`;
    if (isIntricate(area.path, acrossMm)) return refused({ code: "too intricate", part: id });
    const path = cleaned(area);
    if (path === undefined) return refused({ code: "area crosses itself", part: id });
    const colourHint = colourOf(area.paint.fill ?? "black");
    drawn.push({ id, d: pathText(path), ...(colourHint !== undefined && { colourHint }) });
  }
  return makeDrawing({
    outline: pathText(outer),
    areas: drawn.length === 0 && lines.length === 0 ? wholeField(outer, marginMm) : drawn,
    lines: lines.map(drawnLine),
  });
}

/** The area of the box around a path, in its own units: its own could be counted often where it crosses itself. */
function sizeOf(path: Path): number {
  const box = roughBoxOf(path);
  return box === undefined ? 0 : (box.right - box.left) * (box.bottom - box.top);
}

const ringsOfPath = (path: Path): Ring[] => flattened(path).map(({ points }) => points);

const isEndless = ({ path }: SvgShape): boolean =>
  subpathsOf(path).every((subpath) => {
    const points = [...pointsOf(subpath)];
    const [first, last] = [points[0]!, points.at(-1)!];
    return subpath.at(-1)![0] === "Z" || (points.length > 2 && distanceMm(first, last) < 1e-6);
  });

/** Closed by its path, or by a fill that is asked for. */
const isClosed = (shape: SvgShape): boolean =>
  isEndless(shape) || (shape.paint.fill !== undefined && shape.paint.fill !== "none");

const isArea = (shape: SvgShape): boolean => isClosed(shape) && shape.paint.fill !== "none";

const isLine = ({ paint, path }: SvgShape): boolean =>
  subpathsOf(path).length > 0 && (paint.fill !== "none" || (paint.stroke ?? "none") !== "none");

function drawnLine({ path, paint, matrix }: SvgShape, k: number): DrawnLine {
  const { min, max } = DRAWING_LIMITS.lineMm;
  const widthMm = (userUnits(paint.strokeWidth) ?? 1) * scaleOf(matrix);
  const colourHint = colourOf(paint.stroke);
  return {
    id: `line-${k + 1}`,
    d: pathText(path),
    widthMm: Math.round(Math.min(max, Math.max(min, widthMm)) * 100) / 100,
    ...(colourHint !== undefined && { colourHint }),
  };
}

/** One area over the whole cookie, for a file that holds an outline and no more. */
export const wholeField = (outline: Path, marginMm: number): DrawnArea[] => {
  const field = simplified(inset(regionOf(outline), marginMm), 0.05);
  return areaMm2(field) > STRAY_MM2 ? [{ id: "field", d: pathText(pathOfRings(ringsOf(field))) }] : [];
};

/**
 * The same area by the even-odd rule, whichever rule the file fills it by, and without crossings; undefined of a
 * scribble. Curves stay curves where nothing crosses.
 */
function cleaned({ path, paint }: SvgShape): Path | undefined {
  const rule = paint.fillRule === "evenodd" ? "evenodd" : "nonzero";
  const subpaths = subpathsOf(closed(path)).filter((subpath) => sizeOf(subpath) > 0);
  const rings = subpaths.map((subpath) => flattened(subpath)[0]!.points);
  if (!doRingsCross(rings))
    return subpaths.filter((_, k) => rule === "evenodd" || isBoundary(rings, k)).flat();
  if (isScribble(rings)) return undefined;
  return pathOfRings(ringsOf(simplified(regionOfRings(rings, rule), 0.05)));
}

/** Whether the fill is on one side of a ring only, where whatever is wound round is filled. */
function isBoundary(rings: readonly Ring[], which: number): boolean {
  const ring = rings[which]!;
  const outside = rings.reduce((sum, other, k) => (k === which ? sum : sum + windingOf(other, ring[0]!)), 0);
  return (outside === 0) !== (outside + Math.sign(twiceArea(ring)) === 0);
}
