import { figureShape } from "./outline-shape.ts";
import { type Consistency, isPoured } from "./poured.ts";

/** A layer as far as its line goes. */
export interface PipedLayer {
  consistency: Consistency;
  thicknessMm: number;
  areaCm2?: number | undefined;
  lineMm?: number | undefined;
}

/** How long a piped line is, mm: as drawn, else what it covers by its width, or once round the cookie; undefined of what is poured. */
export function lineLengthMm(
  { consistency, thicknessMm, areaCm2, lineMm }: PipedLayer,
  cookieMm: number,
): number | undefined {
  if (isPoured(consistency)) return undefined;
  if (lineMm !== undefined) return lineMm;
  return areaCm2 === undefined
    ? figureShape(cookieMm, cookieMm).perimeterMm
    : (areaCm2 * 100) / Math.max(0.3, thicknessMm);
}
