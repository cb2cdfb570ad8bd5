import { flattened } from "#shared/geometry/flatten.ts";
import { parsePath, type Path } from "#shared/geometry/path.ts";
import type { Point } from "#shared/geometry/point.ts";
import { type Region, regionOf } from "#shared/geometry/region.ts";
import type { Drawing } from "#shared/drawing/drawing.ts";

export function pathFrom(d: string): Path {
  const path = parsePath(d);
  if (!path.ok) throw new Error(`${path.refusal.code}: ${d}`);
  return path.value;
}

export const regionFrom = (d: string): Region => regionOf(pathFrom(d));

export const circlePath = (x: number, y: number, r: number): string =>
  `M${x - r} ${y}a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1 ${-2 * r} 0Z`;

export const linesFrom = (d: string): readonly Point[][] =>
  flattened(pathFrom(d)).map(({ points }) => [...points]);

/** A drawing as a drawing program would save it. */
export const svgOf = ({ widthMm, heightMm, outline, areas, lines }: Drawing): string =>
  `<?xml version="1.0"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm} ${heightMm}">
  <path d="${outline}" fill="#e6c48d"/>
  ${areas.map(({ d }) => `<path d="${d}" style="fill:#ff8800;fill-rule:evenodd"/>`).join("\n  ")}
  ${lines.map(({ d, widthMm }) => `<path d="${d}" fill="none" stroke="navy" stroke-width="${widthMm}"/>`).join("\n  ")}
</svg>`;
