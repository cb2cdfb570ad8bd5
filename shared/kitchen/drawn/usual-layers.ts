import { byName, sortedByName } from "#shared/collections.ts";
import { longestOf } from "#shared/fields.ts";
import type { DrawnLine } from "#shared/drawing/drawing.ts";
import { pathOf } from "#shared/drawing/make-drawing.ts";
import { flattened, lengthMm } from "#shared/geometry/flatten.ts";
import { inset, lineWithin, regionOf } from "#shared/geometry/region.ts";
import { lightnessOf } from "#shared/icing/contrast.ts";
import { USUAL_MM } from "#shared/kitchen/forecast/films.ts";
import { type Consistency, Design, type Icing, type Layer } from "#shared/kitchen/model/vocabulary.ts";
import { type MeasuredDrawing, measuredLayers } from "./measured.ts";
import { nearestIcing } from "./nearest-icing.ts";

/** Drawn parts that one layer lays. */
interface Group {
  consistency: Consistency;
  covers: NonNullable<Layer["covers"]>;
  /** As it was in the file it came from. */
  colourHint?: string | undefined;
}

/** A line lies on top of an area where so much of it is inside that. */
const ON_TOP_SHARE = 0.6;

/**
 * Layers for a new drawing, as most cookies are iced: lines between areas first, then the areas in as many colours as keep
 * neighbours apart, then the lines that lie on top. Common practice, no source. A lead changes what should be otherwise.
 */
export function usualLayers(
  measured: MeasuredDrawing,
  icings: Readonly<Record<string, Icing>>,
  nameOf: (consistency: Consistency) => string,
): Layer[] {
  const { drawing } = measured;
  const onTop = new Set(drawing.lines.filter((line) => liesOnTop(measured, line)).map(({ id }) => id));
  const groups = [
    ...lineGroups(
      "outline",
      drawing.lines.filter(({ id }) => !onTop.has(id)),
    ),
    ...areaGroups(measured),
    ...lineGroups(
      "detail",
      drawing.lines.filter(({ id }) => onTop.has(id)),
    ),
  ];
  const all = groups.length > 0 ? withinLimit(groups) : [NOTHING_DRAWN];
  const own = sortedByName(icings);
  const lines = own.toSorted((a, b) => lightnessOf(a.hex) - lightnessOf(b.hex))[0];
  const fills = own.filter((icing) => icing !== lines || own.length === 1);
  let poured = 0;
  const layers = all.map(({ consistency, covers, colourHint }): Layer => {
    const usual = consistency === "flood" ? fills[poured++ % Math.max(1, fills.length)] : lines;
    const icing = colourHint === undefined ? usual : nearestIcing(own, colourHint);
    return {
      name: nameOf(consistency),
      consistency,
      icingId: icing?.id as Icing["id"],
      thicknessMm: USUAL_MM[consistency],
      narrowestMm: 1,
      covers,
    };
  });
  return measuredLayers(measured, layers);
}

const NOTHING_DRAWN: Group = { consistency: "flood", covers: { areas: [], lines: [] } };

/** Of too many groups the last ones go into one layer. */
function withinLimit(groups: readonly Group[]): readonly Group[] {
  const most = longestOf(Design.entries.layers);
  if (groups.length <= most) return groups;
  const kept = groups.slice(0, most - 1);
  const rest = groups.slice(most - 1);
  const covers = {
    areas: rest.flatMap(({ covers }) => covers.areas),
    lines: rest.flatMap(({ covers }) => covers.lines),
  };
  return [...kept, { ...rest[0]!, covers }];
}

/** Whether most of a line lies well inside one area, rather than along its edge or between two. */
function liesOnTop({ drawing }: MeasuredDrawing, { d, widthMm }: DrawnLine): boolean {
  const lines = flattened(pathOf(d));
  const all = lines.reduce((sum, line) => sum + lengthMm(line), 0);
  return drawing.areas.some((area) => {
    const inner = inset(regionOf(pathOf(area.d)), widthMm / 2);
    const inside = lines.flatMap(({ points, isClosed }) =>
      lineWithin(isClosed ? [...points, points[0]!] : points, inner),
    );
    return (
      inside.reduce((sum, points) => sum + lengthMm({ points, isClosed: false }), 0) >= ON_TOP_SHARE * all
    );
  });
}

const lineGroups = (consistency: Consistency, lines: readonly DrawnLine[]): Group[] =>
  [...byName(lines, ({ colourHint }) => colourHint ?? "").values()].map((own) => ({
    consistency,
    covers: { areas: [], lines: own.map(({ id }) => id) },
    colourHint: own[0]!.colourHint,
  }));

/** Areas of one colour in their file; else those of one kind ("petal-1", "petal-2"), with kinds that do not touch in one colour. */
function areaGroups({ drawing: { areas }, measures }: MeasuredDrawing): Group[] {
  const kindOf = (id: string): string => /^(?!area-)(.*)-\d+$/.exec(id)?.[1] ?? id;
  const kinds = [...byName(areas, ({ id, colourHint }) => colourHint ?? kindOf(id)).values()];
  const groups: { ids: string[]; colourHint?: string | undefined }[] = [];
  for (const own of kinds) {
    const ids = own.map(({ id }) => id);
    const { colourHint } = own[0]!;
    const apart =
      colourHint === undefined
        ? groups.find(
            (group) => group.colourHint === undefined && !doTouch(measures.touching, group.ids, ids),
          )
        : undefined;
    if (apart === undefined) groups.push({ ids, colourHint });
    else apart.ids.push(...ids);
  }
  return groups.map(({ ids, colourHint }) => ({
    consistency: "flood",
    covers: { areas: ids, lines: [] },
    colourHint,
  }));
}

const doTouch = (
  touching: readonly (readonly [string, string])[],
  one: readonly string[],
  other: readonly string[],
): boolean =>
  touching.some(([a, b]) => (one.includes(a) && other.includes(b)) || (one.includes(b) && other.includes(a)));
