import type { Drawing } from "#shared/drawing/drawing.ts";
import type { DrawingFault } from "#shared/drawing/drawing-fault.ts";
import { makeDrawing } from "#shared/drawing/make-drawing.ts";
import { type Matrix, parsePath, pathText, transformed } from "#shared/geometry/path.ts";
import type { Outcome } from "#shared/outcome.ts";

/** A cookie's longest edge, mm: its size. */
export const sizeOf = ({ widthMm, heightMm }: Drawing): number => Math.max(widthMm, heightMm);

/** A drawing with its longest edge so long. Lines stay as wide: they are piped with the same tip. */
export function resized(drawing: Drawing, sizeMm: number): Outcome<Drawing, DrawingFault> {
  const scale = sizeMm / sizeOf(drawing);
  const matrix: Matrix = [scale, 0, 0, scale, 0, 0];
  const scaled = (d: string): string => {
    const path = parsePath(d);
    return path.ok ? pathText(transformed(path.value, matrix)) : d;
  };
  return makeDrawing({
    outline: scaled(drawing.outline),
    areas: drawing.areas.map((area) => ({ ...area, d: scaled(area.d) })),
    lines: drawing.lines.map((line) => ({ ...line, d: scaled(line.d) })),
  });
}
