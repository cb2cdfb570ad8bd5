import { doRingsCross, liesWithin } from "#shared/geometry/crossing.ts";
import { flattened, lengthMm } from "#shared/geometry/flatten.ts";
import {
  closed,
  type Matrix,
  parsePath,
  type Path,
  pathText,
  pointCount,
  subpathsOf,
  transformed,
} from "#shared/geometry/path.ts";
import { boxOf } from "#shared/geometry/point.ts";
import { areaMm2, type Region, regionOf, regionOfRings } from "#shared/geometry/region.ts";
import { areaPart, isNear } from "#shared/geometry/touching.ts";
import { ok, type Outcome, refused } from "#shared/outcome.ts";
import { type Drawing, DRAWING_LIMITS, type DrawnArea, type DrawnLine } from "./drawing.ts";
import type { DrawingFault } from "./drawing-fault.ts";

/** What a drawing is made of: any SVG path data, in millimetres, wherever it lies. */
export interface DrawingInput {
  outline: string;
  areas: readonly DrawnArea[];
  lines: readonly DrawnLine[];
}

/** How far an area, and a line's middle, may reach over the outline, mm. */
const OVER_MM = { area: 0.1, line: 1 } as const;
/** A path longer than this many times the width and height of the cookie together is no icing, and slow to work with. */
const LONGEST = 25;
/** How finely an outline's size is measured, mm. */
const FINE_MM = 0.001;
/** An area of less than this, mm², is none. */
const LEAST_MM2 = 0.5;

/**
 * A drawing with its paths in one form and its corner at nought, or what is wrong with it. A drawing made again is
 * the same, but for hundredths.
 */
export function makeDrawing({ outline, areas, lines }: DrawingInput): Outcome<Drawing, DrawingFault> {
  const most = DRAWING_LIMITS.points;
  if (areas.length > DRAWING_LIMITS.areas)
    return refused({ code: "too many areas", count: areas.length, most: DRAWING_LIMITS.areas });
  if (lines.length > DRAWING_LIMITS.lines)
    return refused({ code: "too many lines", count: lines.length, most: DRAWING_LIMITS.lines });
  let left = most;
  const parsed: { data: string; part?: string; mustClose: boolean }[] = [
    { data: outline, mustClose: true },
    ...areas.map((area) => ({ data: area.d, part: nameOf(area), mustClose: true })),
    ...lines.map((line) => ({ data: line.d, part: nameOf(line), mustClose: false })),
  ];
  const paths: Path[] = [];
  for (const { data, part, mustClose } of parsed) {
    const path = parsePath(data, left);
    if (!path.ok && path.refusal.code === "too many points")
      return refused({ code: "too many points", most });
    if (!path.ok) return refused({ code: "bad path", ...(part !== undefined && { part }) });
    left -= pointCount(path.value);
    paths.push(mustClose ? closed(path.value) : subpathsOf(path.value).flat());
  }
  const shaped = placed(paths[0]!);
  if (!shaped.ok) return shaped;
  const { toCorner, widthMm, heightMm } = shaped.value;
  const texts = paths.map((path) => pathText(transformed(path, toCorner)));
  const drawing: Drawing = {
    widthMm,
    heightMm,
    outline: texts[0]!,
    areas: areas.map((area, k) => ({ ...area, d: texts[1 + k]! })),
    lines: lines.map((line, k) => ({ ...line, d: texts[1 + areas.length + k]! })),
  };
  const fault = faultOf(drawing);
  return fault === undefined ? ok(drawing) : refused(fault);
}

/** What is wrong with the shapes of a drawing that its schema takes. */
export function drawingFault(drawing: Drawing): DrawingFault | undefined {
  const made = makeDrawing(drawing);
  return made.ok ? undefined : made.refusal;
}

/** Where the outline has to be moved to, and how large it is. */
function placed(
  outline: Path,
): Outcome<{ toCorner: Matrix; widthMm: number; heightMm: number }, DrawingFault> {
  const box = boxOf(flattened(outline, FINE_MM).flatMap(({ points }) => points));
  if (box === undefined) return refused({ code: "bad path" });
  const { min, max } = DRAWING_LIMITS.sizeMm;
  const [widthMm, heightMm] = [hundredths(box.right - box.left), hundredths(box.bottom - box.top)];
  if (Math.min(widthMm, heightMm) < min || Math.max(widthMm, heightMm) > max)
    return refused({ code: "size", widthMm, heightMm, minMm: min, maxMm: max });
  return ok({ toCorner: [1, 0, 0, 1, -box.left, -box.top], widthMm, heightMm });
}

const hundredths = (mm: number): number => Math.round(mm * 100) / 100;

const nameOf = ({ id, name }: { id: string; name?: string | undefined }): string => name ?? id;

/** What is wrong with the forms of a drawing whose paths can be read. */
function faultOf(drawing: Drawing): DrawingFault | undefined {
  const { min, max } = DRAWING_LIMITS.lineMm;
  const seen = new Set<string>();
  for (const part of [...drawing.areas, ...drawing.lines]) {
    if (seen.has(part.id)) return { code: "same id", part: nameOf(part) };
    seen.add(part.id);
  }
  const intricate = [{ d: drawing.outline }, ...drawing.areas, ...drawing.lines].find(({ d }) =>
    isIntricate(pathOf(d), drawing.widthMm + drawing.heightMm),
  );
  if (intricate !== undefined)
    return { code: "too intricate", ...("id" in intricate && { part: nameOf(intricate) }) };
  const rings = ringsOfPath(drawing.outline);
  if (doRingsCross(rings)) return { code: "outline crosses itself" };
  const outline = regionOfRings(rings);
  if (outline.length !== 1) return { code: "outline in pieces" };
  for (const area of drawing.areas) {
    const fault = areaFault(area, outline);
    if (fault !== undefined) return fault;
  }
  const cookie = areaPart(outline);
  for (const line of drawing.lines) {
    if (!(line.widthMm >= min && line.widthMm <= max))
      return { code: "line width", part: nameOf(line), minMm: min, maxMm: max };
    const points = flattened(pathOf(line.d)).flatMap(({ points }) => points);
    if (!points.every((point) => isNear(point, cookie, OVER_MM.line)))
      return { code: "outside outline", part: nameOf(line) };
  }
  return undefined;
}

/** Whether a path runs to and fro more than any icing would, by the width and height of the cookie together. */
export const isIntricate = (path: Path, acrossMm: number): boolean =>
  flattened(path, acrossMm / 1000).reduce((sum, line) => sum + lengthMm(line), 0) > LONGEST * acrossMm;

function areaFault(area: DrawnArea, outline: Region): DrawingFault | undefined {
  const rings = ringsOfPath(area.d);
  if (doRingsCross(rings)) return { code: "area crosses itself", part: nameOf(area) };
  const region = regionOfRings(rings);
  if (areaMm2(region) < LEAST_MM2) return { code: "no area", part: nameOf(area) };
  return liesWithin(region, outline, OVER_MM.area)
    ? undefined
    : { code: "outside outline", part: nameOf(area) };
}

const ringsOfPath = (data: string): (readonly { x: number; y: number }[])[] =>
  flattened(pathOf(data)).map(({ points }) => points);

/** The path of a drawing's own path data. */
export function pathOf(data: string): Path {
  const path = parsePath(data);
  if (!path.ok) throw new RangeError(`not path data of a drawing: ${data.slice(0, 40)}`);
  return path.value;
}

/** What an area of a drawing, or its outline, encloses. */
export const regionOfData = (data: string): Region => regionOf(pathOf(data));
