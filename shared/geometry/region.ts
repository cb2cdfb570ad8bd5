import {
  ClipperD,
  ClipType,
  EndType,
  FillRule,
  inflatePathsD,
  JoinType,
  type PathsD,
  type PolyPathD,
  PolyTreeD,
  ramerDouglasPeuckerPathsD,
} from "clipper2-ts";
import { flattened } from "./flatten.ts";
import type { Path } from "./path.ts";
import { type Point, type Ring, twiceArea } from "./point.ts";

/** One connected piece: a ring around it, and rings around its holes. */
export interface Piece {
  outer: Ring;
  holes: readonly Ring[];
}

/** What rings enclose: connected pieces that do not overlap. */
export type Region = readonly Piece[];

/** Decimals kept of a coordinate, mm. */
const DECIMALS = 4;
/** How far an offset's round corner may lie from the true one, mm. */
const ARC_MM = 0.005;
/** Corners sharper than this many times the margin are cut off when a shape grows; when it shrinks they stay. */
const MITER = 4;

/** What closed paths enclose by the even-odd rule: a ring inside another is a hole. */
export const regionOf = (path: Path, toleranceMm?: number): Region =>
  regionOfRings(flattened(path, toleranceMm).map(({ points }) => points));

/** What rings enclose: parts that are enclosed an odd number of times, or that rings wind round at all. */
export const regionOfRings = (rings: readonly Ring[], rule: "evenodd" | "nonzero" = "evenodd"): Region =>
  combine(ClipType.Union, rings, [], rule === "evenodd" ? FillRule.EvenOdd : FillRule.NonZero);

/** All rings of a region, holes with the rest. */
export const ringsOf = (region: Region): Ring[] => region.flatMap(({ outer, holes }) => [outer, ...holes]);

export const together = (a: Region, b: Region): Region =>
  combine(ClipType.Union, ringsOf(a), ringsOf(b), FillRule.NonZero);
export const common = (a: Region, b: Region): Region =>
  combine(ClipType.Intersection, ringsOf(a), ringsOf(b));
export const without = (a: Region, b: Region): Region => combine(ClipType.Difference, ringsOf(a), ringsOf(b));

/**
 * The region less a margin along its edges, holes' edges too. A margin below nought grows it; corners then come out
 * round, as in Steiner's formula A + P m + π m².
 */
export function inset(region: Region, marginMm: number): Region {
  if (marginMm === 0 || region.length === 0) return region;
  const join = marginMm > 0 ? JoinType.Miter : JoinType.Round;
  return regionOfRings(
    inflatePathsD(copied(ringsOf(region)), -marginMm, join, EndType.Polygon, MITER, DECIMALS, ARC_MM),
  );
}

/** Corners rounded as far as a circle of that radius reaches into them; what is narrower than it goes. */
export const rounded = (region: Region, radiusMm: number): Region =>
  inset(inset(region, radiusMm), -radiusMm);

/** With fewer points: those that lie within the tolerance, mm, of the line without them. */
export const simplified = (region: Region, toleranceMm: number): Region =>
  regionOfRings(ramerDouglasPeuckerPathsD(copied(ringsOf(region)), toleranceMm));

/** The parts of an open line that lie inside a region. */
export function lineWithin(line: readonly Point[], region: Region): Ring[] {
  const clipper = new ClipperD(DECIMALS);
  clipper.addOpenSubjectPaths(copied([line]));
  clipper.addClipPaths(copied(ringsOf(region)));
  const inside: PathsD = [];
  clipper.execute(ClipType.Intersection, FillRule.EvenOdd, [], inside);
  return inside.map(plain);
}

export const areaMm2 = (region: Region): number =>
  region.reduce(
    (sum, { outer, holes }) => sum + ringArea(outer) - holes.reduce((all, hole) => all + ringArea(hole), 0),
    0,
  );

const ringArea = (ring: Ring): number => Math.abs(twiceArea(ring)) / 2;

/** Length of all edges, mm, those of holes too. */
export const perimeterMm = (region: Region): number =>
  ringsOf(region).reduce(
    (sum, ring) =>
      sum +
      ring.reduce((all, a, k) => {
        const b = ring[(k + 1) % ring.length]!;
        return all + Math.hypot(b.x - a.x, b.y - a.y);
      }, 0),
    0,
  );

/** The point on which a sheet of this form balances; undefined of nothing. */
export function centroid(region: Region): Point | undefined {
  const sum = { area: 0, x: 0, y: 0 };
  for (const { outer, holes } of region)
    for (const ring of [outer, ...holes]) {
      const sign = Math.sign(twiceArea(ring)) * (ring === outer ? 1 : -1);
      ring.forEach((a, k) => {
        const b = ring[(k + 1) % ring.length]!;
        const cross = sign * (a.x * b.y - b.x * a.y);
        sum.area += cross / 2;
        sum.x += ((a.x + b.x) * cross) / 6;
        sum.y += ((a.y + b.y) * cross) / 6;
      });
    }
  return sum.area > 0 ? { x: sum.x / sum.area, y: sum.y / sum.area } : undefined;
}

function combine(
  type: ClipType,
  subject: readonly Ring[],
  clip: readonly Ring[],
  rule = FillRule.EvenOdd,
): Region {
  const clipper = new ClipperD(DECIMALS);
  clipper.addSubjectPaths(copied(subject));
  if (clip.length > 0) clipper.addClipPaths(copied(clip));
  const tree = new PolyTreeD();
  clipper.execute(type, rule, tree);
  return piecesOf(tree);
}

/** The library keeps rings in a tree: around a piece its holes, in them further pieces. */
const piecesOf = (node: PolyPathD): Piece[] =>
  childrenOf(node).flatMap((piece) => {
    const holes = childrenOf(piece);
    return [
      { outer: plain(piece.poly!), holes: holes.map((hole) => plain(hole.poly!)) },
      ...holes.flatMap(piecesOf),
    ];
  });

const childrenOf = (node: PolyPathD): PolyPathD[] =>
  Array.from({ length: node.count }, (_, k) => node.child(k));

const plain = (ring: readonly Point[]): Ring => ring.map(({ x, y }) => ({ x, y }));
const copied = (rings: readonly Ring[]): PathsD => rings.map((ring) => ring.map(({ x, y }) => ({ x, y })));
