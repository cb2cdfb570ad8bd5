import type { Drawing } from "./drawing.ts";
import type { DrawingFault } from "./drawing-fault.ts";
import type { Outcome } from "#shared/outcome.ts";
import { circle, ellipse, rectangle, star } from "./templates/strokes.ts";
import { templateOf } from "./templates/template.ts";

// Simple shapes by their figures in millimetres: an outline, the area "field" within the margin, the line "edge" around it.

type Shape = Outcome<Drawing, DrawingFault>;

const plain = (outline: string, widthMm: number, heightMm: number, marginMm?: number): Shape =>
  templateOf({ outline, areas: [{ id: "field" }], lines: [] })({
    widthMm,
    heightMm,
    ...(marginMm !== undefined && { marginMm }),
  });

/** A round cookie. */
export const roundDrawing = (diameterMm: number, marginMm?: number): Shape =>
  plain(circle(50, 50, 50), diameterMm, diameterMm, marginMm);

export const ovalDrawing = (widthMm: number, heightMm: number, marginMm?: number): Shape =>
  plain(ellipse(50, 50, 50, 50), widthMm, heightMm, marginMm);

/** Square and oblong; a corner's radius is at most half the shorter side. */
export function rectangleDrawing(widthMm: number, heightMm: number, cornerMm = 0, marginMm?: number): Shape {
  const r = Math.min(Math.max(0, cornerMm), widthMm / 2, heightMm / 2);
  // Figures that no drawing has are refused by its size; the sketch needs some shape all the same.
  const isSound =
    [widthMm, heightMm, r].every((mm) => Number.isFinite(mm) && mm >= 0) && widthMm > 0 && heightMm > 0;
  return plain(
    isSound ? rectangle(0, 0, widthMm, heightMm, r) : rectangle(0, 0, 1, 1),
    widthMm,
    heightMm,
    marginMm,
  );
}

/** A round cookie with a round hole in its middle. */
export function ringDrawing(diameterMm: number, holeMm: number, marginMm?: number): Shape {
  const hole = Math.min(0.98, Math.max(0.02, holeMm / diameterMm || 0.02));
  return plain(`${circle(50, 50, 50)}${circle(50, 50, 50 * hole)}`, diameterMm, diameterMm, marginMm);
}

/** A regular polygon of 3–24 sides, a corner upwards, in a circle of that diameter. */
export function polygonDrawing(diameterMm: number, sides: number, marginMm?: number): Shape {
  const corners = Math.min(24, Math.max(3, Math.round(sides) || 3));
  // Every second corner of a star whose inner corners lie on its sides.
  const outline = star(0, 0, 50, 50 * Math.cos(Math.PI / corners), corners);
  const angles = Array.from({ length: corners }, (_, k) => (2 * Math.PI * k) / corners);
  const width = Math.max(...angles.map(Math.sin)) - Math.min(...angles.map(Math.sin));
  const height = Math.max(...angles.map(Math.cos)) - Math.min(...angles.map(Math.cos));
  return plain(outline, (diameterMm * width) / 2, (diameterMm * height) / 2, marginMm);
}
