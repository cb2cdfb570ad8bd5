import polylabel from "polylabel";
import { areaMm2, type Piece, type Region } from "./region.ts";
import { boxOf, type Point, type Ring } from "./point.ts";

export interface Circle {
  centre: Point;
  radiusMm: number;
}

/** How near the largest circle is found, share of the piece's narrower side. */
const PRECISION = 0.001;
/** A piece smaller than this, mm², is a crumb of drawing, not a section. */
const CRUMB_MM2 = 0.05;

/** The largest circle that lies inside a piece and outside its holes. */
export function largestCircle(piece: Piece): Circle {
  const box = boxOf(piece.outer)!;
  const narrowerMm = Math.min(box.right - box.left, box.bottom - box.top);
  const found = polylabel([piece.outer, ...piece.holes].map(pairs), Math.max(1e-4, narrowerMm * PRECISION));
  return { centre: { x: found[0], y: found[1] }, radiusMm: found.distance };
}

/** The ring closed and as pairs, as the library takes it. */
const pairs = (ring: Ring): [number, number][] => [...ring, ring[0]!].map(({ x, y }) => [x, y]);

/**
 * The narrowest span of a region, mm: the largest circle's diameter in that piece where it is smallest. That is the
 * section that sinks first when left to dry slowly. Undefined of nothing.
 */
export function narrowestMm(region: Region): number | undefined {
  const pieces = region.filter((piece) => areaMm2([piece]) > CRUMB_MM2);
  if (pieces.length === 0) return undefined;
  return Math.min(...pieces.map((piece) => 2 * largestCircle(piece).radiusMm));
}
