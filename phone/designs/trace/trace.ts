import type { Drawing } from "#shared/drawing/drawing.ts";
import type { DrawingFault } from "#shared/drawing/drawing-fault.ts";
import { wholeField } from "#shared/drawing/import-svg.ts";
import { makeDrawing, pathOf as drawnPath } from "#shared/drawing/make-drawing.ts";
import { flattened } from "#shared/geometry/flatten.ts";
import { type Path, pathText, type Step, transformed } from "#shared/geometry/path.ts";
import { boxOf } from "#shared/geometry/point.ts";
import { type Outcome, refused } from "#shared/outcome.ts";

/** A point placed on a photo, in its pixels. */
export interface TracePoint {
  x: number;
  y: number;
  /** The drawing bends through it; else it has a corner there. */
  isCurved: boolean;
}

export type ShapeKind = "outline" | "area" | "line";

export interface TraceShape {
  kind: ShapeKind;
  points: readonly TracePoint[];
  /** An outline or area whose last point joins the first; a line that is done. */
  isClosed: boolean;
}

export interface Trace {
  shapes: readonly TraceShape[];
  /** The shape and its point that a tap goes on from. */
  shape?: number;
  point?: number;
}

/** A trace with what undo and redo go to. */
export interface TraceHistory {
  now: Trace;
  past: readonly Trace[];
  future: readonly Trace[];
}

export const NO_TRACE: TraceHistory = { now: { shapes: [] }, past: [], future: [] };

const PAST_MOST = 200;

/** A change that can be undone. */
export const record = ({ now, past }: TraceHistory, next: Trace): TraceHistory => ({
  now: next,
  past: [...past, now].slice(-PAST_MOST),
  future: [],
});

/** A change that goes on from the last one: a point that is dragged farther. */
export const amend = (history: TraceHistory, next: Trace): TraceHistory => ({ ...history, now: next });

export function undo({ now, past, future }: TraceHistory): TraceHistory {
  const before = past.at(-1);
  if (before === undefined) return { now, past, future };
  return { now: before, past: past.slice(0, -1), future: [now, ...future] };
}

export function redo({ now, past, future }: TraceHistory): TraceHistory {
  const [after, ...rest] = future;
  if (after === undefined) return { now, past, future };
  return { now: after, past: [...past, now], future: rest };
}

/** The shape that is being drawn; undefined where the next tap begins one. */
export function openShape({ shapes, shape }: Trace): TraceShape | undefined {
  const own = shape === undefined ? undefined : shapes[shape];
  return own?.isClosed === false ? own : undefined;
}

const withShape = (trace: Trace, shape: number, own: TraceShape): Trace => ({
  ...trace,
  shapes: trace.shapes.map((one, k) => (k === shape ? own : one)),
});

/** A point more on the shape that is being drawn, else on a new one of this kind. There is one outline: a new one takes its place. */
export function addPoint(trace: Trace, kind: ShapeKind, point: TracePoint): Trace {
  const own = openShape(trace);
  if (own !== undefined && own.kind === kind)
    return {
      ...withShape(trace, trace.shape!, { ...own, points: [...own.points, point] }),
      point: own.points.length,
    };
  const others = kind === "outline" ? trace.shapes.filter((shape) => shape.kind !== "outline") : trace.shapes;
  return { shapes: [...others, { kind, points: [point], isClosed: false }], shape: others.length, point: 0 };
}

export function movePoint(trace: Trace, shape: number, point: number, to: { x: number; y: number }): Trace {
  const own = trace.shapes[shape];
  if (own === undefined) return trace;
  const points = own.points.map((one, k) => (k === point ? { ...one, ...to } : one));
  return { ...withShape(trace, shape, { ...own, points }), shape, point };
}

/** Whether a shape has points enough to be closed, or a line to be done. */
export const canClose = ({ kind, points }: TraceShape): boolean => points.length >= (kind === "line" ? 2 : 3);

export function closeShape(trace: Trace): Trace {
  const own = openShape(trace);
  if (own === undefined || !canClose(own)) return trace;
  const { shape, ...rest } = withShape(trace, trace.shape!, { ...own, isClosed: true });
  return shape === undefined ? rest : { shapes: rest.shapes, shape };
}

/** Turns the chosen point from a corner into a bend, or back. */
export function bendPoint(trace: Trace): Trace {
  const { shape, point } = trace;
  const own = shape === undefined ? undefined : trace.shapes[shape];
  if (own === undefined || point === undefined) return trace;
  const points = own.points.map((one, k) => (k === point ? { ...one, isCurved: !one.isCurved } : one));
  return withShape(trace, shape!, { ...own, points });
}

/** Without the chosen point; a shape that is left with too few is drawn on. */
export function deletePoint(trace: Trace): Trace {
  const { shape, point } = trace;
  const own = shape === undefined ? undefined : trace.shapes[shape];
  if (own === undefined || point === undefined) return trace;
  const points = own.points.filter((_, k) => k !== point);
  if (points.length === 0) return deleteShape(trace);
  const left = { ...own, points };
  return {
    ...withShape(trace, shape!, { ...left, isClosed: own.isClosed && canClose(left) }),
    point: Math.max(0, point - 1),
  };
}

export const deleteShape = ({ shapes, shape }: Trace): Trace => ({
  shapes: shapes.filter((_, k) => k !== shape),
});

/** A shape as SVG path data, in the photo's pixels. */
export const shapePath = (shape: TraceShape): string => pathText(pathOf(shape));

/** How far a bend's handles reach along the line between its neighbours: a Catmull-Rom spline's as Bézier curves. */
const HANDLE = 1 / 6;

function pathOf({ kind, points, isClosed }: TraceShape): Path {
  const isRound = isClosed && kind !== "line";
  const at = (k: number): TracePoint =>
    isRound
      ? points[(k + points.length) % points.length]!
      : points[Math.min(points.length - 1, Math.max(0, k))]!;
  /** Where the curve through a point is headed. */
  const heading = (k: number): { x: number; y: number } =>
    at(k).isCurved
      ? { x: (at(k + 1).x - at(k - 1).x) * HANDLE, y: (at(k + 1).y - at(k - 1).y) * HANDLE }
      : { x: 0, y: 0 };
  const [first] = points;
  if (first === undefined) return [];
  const steps: Step[] = [["M", first.x, first.y]];
  const last = isRound ? points.length : points.length - 1;
  for (let k = 1; k <= last; k += 1) {
    const [from, to] = [at(k - 1), at(k)];
    if (!from.isCurved && !to.isCurved) steps.push(["L", to.x, to.y]);
    else {
      const [out, into] = [heading(k - 1), heading(k)];
      steps.push(["C", from.x + out.x, from.y + out.y, to.x - into.x, to.y - into.y, to.x, to.y]);
    }
  }
  return isRound ? [...steps, ["Z"]] : steps;
}

export type TraceFault = DrawingFault | { code: "no outline" } | { code: "too few"; kind: "area" | "line" };

/** Kept free at the edge. Common practice, no source. */
const MARGIN_MM = 3;
/** Lines are piped about so wide until someone says otherwise, mm. Common practice, no source. */
const LINE_MM = 2;

/** The drawing that was traced, its outline so wide. Shapes that are still being drawn must be closed or deleted first. */
export function drawingOf({ shapes }: Trace, widthMm: number): Outcome<Drawing, TraceFault> {
  const outline = shapes.find(({ kind, isClosed }) => kind === "outline" && isClosed);
  if (outline === undefined) return refused({ code: "no outline" });
  const unfinished = shapes.find((shape) => shape.kind !== "outline" && !canClose(shape));
  if (unfinished !== undefined)
    return refused({ code: "too few", kind: unfinished.kind === "line" ? "line" : "area" });
  const box = boxOf(flattened(pathOf(outline)).flatMap(({ points }) => points))!;
  const scale = widthMm / Math.max(1, box.right - box.left);
  const inMm = (shape: TraceShape): string =>
    pathText(
      transformed(pathOf({ ...shape, isClosed: true }), [
        scale,
        0,
        0,
        scale,
        -box.left * scale,
        -box.top * scale,
      ]),
    );
  const ofKind = (kind: ShapeKind): TraceShape[] => shapes.filter((shape) => shape.kind === kind);
  const areas = ofKind("area").map((shape, k) => ({ id: `area-${k + 1}`, d: inMm(shape) }));
  const lines = ofKind("line").map((shape, k) => ({ id: `line-${k + 1}`, d: inMm(shape), widthMm: LINE_MM }));
  const made = makeDrawing({ outline: inMm(outline), areas, lines });
  // Of an outline alone all within its margin is iced.
  if (!made.ok || areas.length + lines.length > 0) return made;
  return makeDrawing({ ...made.value, areas: wholeField(drawnPath(made.value.outline), MARGIN_MM) });
}
