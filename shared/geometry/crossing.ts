import { areaMm2, common, inset, type Region, regionOfRings, ringsOf, without } from "./region.ts";
import { type Ring, twiceArea } from "./point.ts";

/** A loop smaller than this, mm², comes of rounding and is not seen. */
const LOOP_MM2 = 0.05;
/** More crossings than this are a scribble: nothing is worked out of it. */
const MOST_CROSSINGS = 200;

/** Pairs of rings whose edges cross, by their places in the list; undefined where they are too many to count. */
function crossingRings(rings: readonly Ring[]): [number, number][] | undefined {
  const edges = rings
    .flatMap((ring, which) =>
      ring.map((a, k) => {
        const b = ring[(k + 1) % ring.length]!;
        const [left, right] = a.x < b.x ? [a.x, b.x] : [b.x, a.x];
        const [top, bottom] = a.y < b.y ? [a.y, b.y] : [b.y, a.y];
        return { which, a, b, left, right, top, bottom };
      }),
    )
    .toSorted((a, b) => a.left - b.left);
  const found = new Map<string, [number, number]>();
  let count = 0;
  const open: typeof edges = [];
  for (const edge of edges) {
    let kept = 0;
    // What lies wholly to the left is let go of while the others are looked at.
    for (const other of open) {
      if (other.right < edge.left) continue;
      open[kept++] = other;
      if (other.top > edge.bottom || other.bottom < edge.top || !doCross(edge, other)) continue;
      if (++count > MOST_CROSSINGS) return undefined;
      found.set(`${other.which} ${edge.which}`, [other.which, edge.which]);
    }
    open.length = kept;
    open.push(edge);
  }
  return [...found.values()];
}

interface Edge {
  a: Ring[number];
  b: Ring[number];
}

/** Whether two edges cross in their insides; ones that only touch do not. */
const doCross = (one: Edge, other: Edge): boolean =>
  side(one, other.a) * side(one, other.b) < 0 && side(other, one.a) * side(other, one.b) < 0;

const side = ({ a, b }: Edge, { x, y }: Ring[number]): number => {
  const cross = (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
  return Math.abs(cross) < 1e-9 ? 0 : Math.sign(cross);
};

/** Whether rings cross so often that nothing is worked out of them. */
export const isScribble = (rings: readonly Ring[]): boolean => crossingRings(rings) === undefined;

/** Whether rings cross themselves or each other by more than rounding does. */
export function doRingsCross(rings: readonly Ring[]): boolean {
  const pairs = crossingRings(rings);
  if (pairs === undefined) return true;
  return pairs.some(([i, k]) => (i === k ? doesRingCross(rings[i]!) : doOverlap(rings[i]!, rings[k]!)));
}

/** A ring that winds once round all it encloses has the same area by its signed sum and by the even-odd rule. */
function doesRingCross(ring: Ring): boolean {
  const evenOdd = areaMm2(regionOfRings([ring]));
  const signed = Math.abs(twiceArea(ring)) / 2;
  if (Math.abs(evenOdd - signed) > LOOP_MM2) return true;
  // Lobes of opposite direction can make up for a part gone round twice: such a part is no part of the even-odd area.
  const boxed = regionOfRings([ring]).flatMap(({ holes }) => holes);
  return boxed.some((hole) => Math.abs(twiceArea(hole)) / 2 > LOOP_MM2);
}

/** Two rings that cross, rather than lie apart or one in the other. */
function doOverlap(one: Ring, other: Ring): boolean {
  const [a, b] = [regionOfRings([one]), regionOfRings([other])];
  const sharedMm2 = areaMm2(common(a, b));
  return sharedMm2 > LOOP_MM2 && sharedMm2 < Math.min(areaMm2(a), areaMm2(b)) - LOOP_MM2;
}

/** Whether a region lies inside another but for a tolerance, mm. */
export function liesWithin(inner: Region, outer: Region, toleranceMm: number): boolean {
  const grown = inset(outer, -toleranceMm);
  const pairs = crossingRings([...ringsOf(grown), ...ringsOf(inner)]);
  return pairs !== undefined && areaMm2(without(inner, grown)) <= LOOP_MM2;
}

/** How much two regions share, mm²; undefined where their edges cross too often to tell. */
export function overlapMm2(a: Region, b: Region): number | undefined {
  return crossingRings([...ringsOf(a), ...ringsOf(b)]) === undefined ? undefined : areaMm2(common(a, b));
}
