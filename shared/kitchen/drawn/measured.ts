import type { Drawing } from "#shared/drawing/drawing.ts";
import { coverageOf, doLayersTouch, type DrawingMeasures } from "#shared/drawing/measures.ts";
import { rangeOf } from "#shared/fields.ts";
import { Layer } from "#shared/kitchen/model/vocabulary.ts";

/** A drawing and what was measured of it. */
export interface MeasuredDrawing {
  drawing: Drawing;
  measures: DrawingMeasures;
}

/** Figures of a layer that a drawing measures, where nobody typed others. */
export type MeasuredFigures = Pick<Layer, "areaCm2" | "lineMm"> & { narrowestMm?: number };

/** A figure that may be typed instead. */
export type TypedFigure = NonNullable<Layer["typed"]>[number];

const NOTHING = { areas: [], lines: [] } as const satisfies Layer["covers"];

/** Ids of what a layer covers. */
export const coveredBy = ({ covers = NOTHING }: Pick<Layer, "covers">): string[] => [
  ...covers.areas,
  ...covers.lines,
];

/** What a layer's areas and lines come to; a line covers its length by its width. Nothing where it covers nothing. */
export function figuresOf(
  { drawing, measures }: MeasuredDrawing,
  { covers = NOTHING }: Pick<Layer, "covers">,
): MeasuredFigures {
  const lines = drawing.lines.filter(({ id }) => covers.lines.includes(id));
  const { areaMm2, lineLengthMm, narrowestMm } = coverageOf(measures, coveredBy({ covers }));
  const linesMm2 = lines.reduce(
    (sum, { id, widthMm }) => sum + (measures.lineLengthsMm.get(id) ?? 0) * widthMm,
    0,
  );
  const narrowest = Math.min(narrowestMm ?? Infinity, ...lines.map(({ widthMm }) => widthMm));
  if (!Number.isFinite(narrowest)) return {};
  return {
    areaCm2: within("areaCm2", hundredths((areaMm2 + linesMm2) / 100)),
    narrowestMm: within("narrowestMm", hundredths(narrowest)),
    // What also covers an area is piped over that too: its length follows from all it covers.
    ...(lines.length > 0 &&
      covers.areas.length === 0 && { lineMm: within("lineMm", hundredths(lineLengthMm)) }),
  };
}

const hundredths = (value: number): number => Math.round(value * 100) / 100;

function within(field: "areaCm2" | "lineMm" | "narrowestMm", value: number): number {
  const { min, max } = rangeOf(Layer.entries[field]);
  return Math.min(max, Math.max(min, value));
}

/** A layer as far as what is measured of it goes. */
type Measurable = Pick<Layer, "covers" | "typed" | "touches" | "areaCm2" | "lineMm"> & {
  narrowestMm?: number | undefined;
};

/** Layers with every figure that nobody typed as the drawing measures it, and with what they lie against. */
export function measuredLayers<Written extends Measurable>(
  measured: MeasuredDrawing,
  layers: readonly Written[],
): Written[] {
  return layers.map((layer, k) => {
    if (coveredBy(layer).length === 0) return layer;
    const isTyped = (figure: TypedFigure): boolean => layer.typed?.includes(figure) === true;
    const { areaCm2, lineMm, narrowestMm } = figuresOf(measured, layer);
    const { areaCm2: _area, lineMm: _line, ...rest } = layer;
    return {
      ...rest,
      narrowestMm: isTyped("narrowestMm") ? layer.narrowestMm : narrowestMm,
      ...optional("areaCm2", isTyped("areaCm2") ? layer.areaCm2 : areaCm2),
      ...optional("lineMm", isTyped("lineMm") ? layer.lineMm : lineMm),
      touches: isTyped("touches") ? layer.touches : touchesOf(measured, layers, k),
    } as Written;
  });
}

const optional = <Key extends string>(key: Key, value: number | undefined): { [K in Key]?: number } =>
  (value === undefined ? {} : { [key]: value }) as { [K in Key]?: number };

/** The earlier layers that a layer lies against; one that covers nothing drawn may lie against any. */
export const touchesOf = (
  { measures }: MeasuredDrawing,
  layers: readonly Pick<Layer, "covers">[],
  layer: number,
): number[] =>
  Array.from({ length: layer }, (_, k) => k).filter((k) => {
    const [own, other] = [coveredBy(layers[layer]!), coveredBy(layers[k]!)];
    return other.length === 0 || doLayersTouch(measures, own, other);
  });
