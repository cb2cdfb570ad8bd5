import { flattened, lengthMm } from "#shared/geometry/flatten.ts";
import { narrowestMm } from "#shared/geometry/narrowest.ts";
import type { Point } from "#shared/geometry/point.ts";
import { areaMm2, centroid, perimeterMm, type Region } from "#shared/geometry/region.ts";
import { areaPart, doMeetUnder, doTouch, linePart, type Part } from "#shared/geometry/touching.ts";
import type { Drawing } from "./drawing.ts";
import { pathOf, regionOfData } from "./make-drawing.ts";

export interface AreaMeasures {
  areaMm2: number;
  /** All its edges, holes' too. */
  perimeterMm: number;
  /** The largest circle's diameter in its smallest section. */
  narrowestMm: number;
  /** Where it balances: for a name or a number beside it. */
  centre: Point;
}

export interface DrawingMeasures {
  outline: AreaMeasures;
  /** By id. */
  areas: ReadonlyMap<string, AreaMeasures>;
  /** Length of each line's middle, mm, by id. */
  lineLengthsMm: ReadonlyMap<string, number>;
  /** Pairs of parts whose icing runs into each other where both are wet, by id; a part that comes earlier first. */
  touching: readonly (readonly [string, string])[];
}

/** Every figure that a design needs of its drawing. */
export function measureDrawing({ outline, areas, lines }: Drawing): DrawingMeasures {
  const regions = areas.map(({ id, d }) => ({ id, region: regionOfData(d) }));
  const drawn = lines.map(({ id, d, widthMm }) => ({ id, widthMm, lines: flattened(pathOf(d)) }));
  return {
    outline: measuresOf(regionOfData(outline)),
    areas: new Map(regions.map(({ id, region }) => [id, measuresOf(region)])),
    lineLengthsMm: new Map(
      drawn.map(({ id, lines }) => [id, lines.reduce((sum, line) => sum + lengthMm(line), 0)]),
    ),
    touching: touchingOf(
      regions.map(({ id, region }) => ({ id, part: areaPart(region) })),
      drawn.map(({ id, lines, widthMm }) => ({ id, part: linePart(lines, widthMm) })),
    ),
  };
}

const measuresOf = (region: Region): AreaMeasures => ({
  areaMm2: areaMm2(region),
  perimeterMm: perimeterMm(region),
  narrowestMm: narrowestMm(region) ?? 0,
  centre: centroid(region) ?? { x: 0, y: 0 },
});

interface NamedPart {
  id: string;
  part: Part;
}

function touchingOf(areas: readonly NamedPart[], lines: readonly NamedPart[]): (readonly [string, string])[] {
  const parts = [...areas, ...lines];
  return parts.flatMap((a, k) =>
    parts
      .slice(k + 1)
      .filter((b) => doTouch(a.part, b.part) || (areas.includes(b) && doMeetUnderOne(lines, a.part, b.part)))
      .map((b) => [a.id, b.id] as const),
  );
}

const doMeetUnderOne = (lines: readonly NamedPart[], a: Part, b: Part): boolean =>
  lines.some((line) => doMeetUnder(line.part, a, b));

/** What a layer covers: figures of the areas and lines it names. */
export interface Coverage {
  areaMm2: number;
  lineLengthMm: number;
  /** Of its areas; undefined where it has none. */
  narrowestMm?: number;
}

/** What a layer over these parts covers; ids that the drawing does not have count for nothing. */
export function coverageOf({ areas, lineLengthsMm }: DrawingMeasures, ids: readonly string[]): Coverage {
  const covered = ids.flatMap((id) => areas.get(id) ?? []);
  return {
    areaMm2: covered.reduce((sum, { areaMm2 }) => sum + areaMm2, 0),
    lineLengthMm: ids.reduce((sum, id) => sum + (lineLengthsMm.get(id) ?? 0), 0),
    ...(covered.length > 0 && { narrowestMm: Math.min(...covered.map(({ narrowestMm }) => narrowestMm)) }),
  };
}

/** Whether two layers touch: one of the parts of one touches, or is, one of the other's. */
export const doLayersTouch = (
  { touching }: DrawingMeasures,
  one: readonly string[],
  other: readonly string[],
): boolean =>
  one.some((id) => other.includes(id)) ||
  touching.some(([a, b]) => (one.includes(a) && other.includes(b)) || (one.includes(b) && other.includes(a)));
