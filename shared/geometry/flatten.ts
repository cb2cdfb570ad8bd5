import type { Path } from "./path.ts";
import { between, type Point } from "./point.ts";

/** How far a flattened curve may lie from the curve, mm: within 0.2 % of the area of a circle of 20 mm. */
export const DRAWN_MM = 0.02;

/** The most straight pieces one curve is cut into. */
const MOST_PIECES = 256;

/** A chain of straight edges; of a closed one the last point joins the first. */
export interface Polyline {
  points: readonly Point[];
  isClosed: boolean;
}

/** A path's subpaths as straight edges that lie within a tolerance (mm) of its curves. */
export function flattened(path: Path, toleranceMm = DRAWN_MM): Polyline[] {
  const lines: { points: Point[]; isClosed: boolean }[] = [];
  for (const step of path) {
    const line = lines.at(-1);
    if (step[0] === "Z") {
      if (line !== undefined) line.isClosed = true;
    } else if (step[0] === "C") {
      const [, x1, y1, x2, y2, x, y] = step;
      if (line !== undefined) curve(line.points, { x: x1, y: y1 }, { x: x2, y: y2 }, { x, y }, toleranceMm);
    } else {
      const [letter, x, y] = step;
      if (letter === "M") lines.push({ points: [{ x, y }], isClosed: false });
      else if (line !== undefined) push(line.points, { x, y });
    }
  }
  return lines.map(withoutRepeat).filter(({ points }) => points.length > 1);
}

function push(points: Point[], point: Point): void {
  const last = points.at(-1)!;
  if (last.x !== point.x || last.y !== point.y) points.push(point);
}

/**
 * A cubic Bézier curve in equal steps of its parameter: as many as keep each chord within the tolerance, by the bound
 * on its second derivative (Wang's formula: n = √(6/8 · M / tolerance), M the largest second difference of its
 * points; from memory).
 */
function curve(points: Point[], one: Point, two: Point, to: Point, toleranceMm: number): void {
  const from = points.at(-1)!;
  const bend = Math.max(
    Math.hypot(from.x - 2 * one.x + two.x, from.y - 2 * one.y + two.y),
    Math.hypot(one.x - 2 * two.x + to.x, one.y - 2 * two.y + to.y),
  );
  const pieces = Math.min(MOST_PIECES, Math.max(1, Math.ceil(Math.sqrt((0.75 * bend) / toleranceMm))));
  for (let k = 1; k < pieces; k++) push(points, onCurve(from, one, two, to, k / pieces));
  push(points, to);
}

/** De Casteljau's construction. */
function onCurve(from: Point, one: Point, two: Point, to: Point, t: number): Point {
  const [a, b, c] = [between(from, one, t), between(one, two, t), between(two, to, t)];
  return between(between(a, b, t), between(b, c, t), t);
}

/** A closed line whose last point is its first again says it once. */
function withoutRepeat({ points, isClosed }: { points: Point[]; isClosed: boolean }): Polyline {
  const [first, last] = [points[0]!, points.at(-1)!];
  const repeats = isClosed && points.length > 1 && first.x === last.x && first.y === last.y;
  return { points: repeats ? points.slice(0, -1) : points, isClosed };
}

/** How long a line is, mm; a closed one once round. */
export const lengthMm = ({ points, isClosed }: Polyline): number =>
  points.reduce((sum, point, k) => {
    const next = points[k + 1] ?? (isClosed ? points[0]! : point);
    return sum + Math.hypot(next.x - point.x, next.y - point.y);
  }, 0);
