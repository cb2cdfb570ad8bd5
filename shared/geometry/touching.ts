import { type Box, boxOf, distanceMm, distanceToEdgeMm, between, type Point, windingOf } from "./point.ts";
import { lengthMm, type Polyline } from "./flatten.ts";
import { type Region, ringsOf } from "./region.ts";

/** Icing this near to icing runs into it, mm. Common practice, no source. */
export const TOUCH_MM = 0.4;
/** Along less than this, mm, two parts meet at a point: they do not touch. */
const CONTACT_MM = 1;
/** How finely edges are looked at, mm. */
const STEP_MM = 0.4;

/** Something drawn, ready to be asked what it touches. */
export interface Part {
  region?: Region;
  /** How far its icing reaches from its edges or its line, mm. */
  reachMm: number;
  /** Edges with the boxes around them, and the box around all. */
  edges: readonly { from: Point; to: Point; box: Box }[];
  box: Box;
  /** Points along its edges or line, each of which stands for so many millimetres of it. */
  samples: readonly { at: Point; standsForMm: number }[];
}

/** A part filled with icing. */
export const areaPart = (region: Region): Part =>
  part(
    ringsOf(region).map((points) => ({ points, isClosed: true })),
    0,
    region,
  );

/** A piped line. */
export const linePart = (lines: readonly Polyline[], widthMm: number): Part => part(lines, widthMm / 2);

/** Whether icing on two parts runs into each other: they lie near along an edge or a line, or one over the other. */
export const doTouch = (a: Part, b: Part): boolean => hasContact(a, b) || hasContact(b, a);

/** Whether two parts meet under a line that is piped over the join between them. */
export function doMeetUnder(line: Part, a: Part, b: Part): boolean {
  const reachMm = line.reachMm + TOUCH_MM;
  // Corner to corner they are both near the line too, as far as it reaches each way.
  return alongMm(line, (at) => isNear(at, a, reachMm) && isNear(at, b, reachMm)) >= 2 * reachMm + CONTACT_MM;
}

function hasContact(a: Part, b: Part): boolean {
  const reachMm = a.reachMm + b.reachMm + TOUCH_MM;
  if (!areBoxesNear(a.box, b.box, reachMm)) return false;
  return alongMm(a, (at) => isNear(at, b, reachMm)) >= Math.min(CONTACT_MM, alongMm(a, () => true) / 2);
}

/** How much of a part's edges or line is so, mm. */
const alongMm = ({ samples }: Part, isSo: (at: Point) => boolean): number =>
  samples.reduce((sum, { at, standsForMm }) => (isSo(at) ? sum + standsForMm : sum), 0);

/** Whether a point lies in a part, or no farther from its edges or its line than so much. */
export function isNear(at: Point, { box, edges, region = [] }: Part, reachMm: number): boolean {
  if (!isInBox(at, box, reachMm)) return false;
  if (ringsOf(region).filter((ring) => windingOf(ring, at) !== 0).length % 2 === 1) return true;
  return edges.some(
    ({ from, to, box }) => isInBox(at, box, reachMm) && distanceToEdgeMm(at, from, to) <= reachMm,
  );
}

const isInBox = ({ x, y }: Point, { left, top, right, bottom }: Box, reachMm: number): boolean =>
  x >= left - reachMm && x <= right + reachMm && y >= top - reachMm && y <= bottom + reachMm;

const areBoxesNear = (a: Box, b: Box, reachMm: number): boolean =>
  a.left <= b.right + reachMm &&
  b.left <= a.right + reachMm &&
  a.top <= b.bottom + reachMm &&
  b.top <= a.bottom + reachMm;

function part(lines: readonly Polyline[], reachMm: number, region?: Region): Part {
  const edges = lines.flatMap(edgesOf).map(([from, to]) => ({ from, to, box: boxOf([from, to])! }));
  const box = boxOf(lines.flatMap(({ points }) => points)) ?? { left: 0, top: 0, right: 0, bottom: 0 };
  return { edges, box, reachMm, samples: lines.flatMap(samplesOf), ...(region && { region }) };
}

/** Points evenly along a line, no farther apart than a step. */
function samplesOf(line: Polyline): Part["samples"] {
  const totalMm = lengthMm(line);
  const standsForMm = totalMm / Math.max(1, Math.ceil(totalMm / STEP_MM));
  const samples: { at: Point; standsForMm: number }[] = [];
  let nextMm = standsForMm / 2;
  for (const [from, to] of edgesOf(line)) {
    const edgeMm = distanceMm(from, to);
    for (; nextMm <= edgeMm; nextMm += standsForMm)
      samples.push({ at: between(from, to, nextMm / edgeMm), standsForMm });
    nextMm -= edgeMm;
  }
  return samples;
}

const edgesOf = ({ points, isClosed }: Polyline): [Point, Point][] =>
  points.flatMap((point, k): [Point, Point][] => {
    const next = points[k + 1] ?? (isClosed ? points[0] : undefined);
    return next === undefined ? [] : [[point, next]];
  });
