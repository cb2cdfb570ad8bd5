import { isPoured } from "#shared/icing/poured.ts";
import type { Drawing } from "#shared/drawing/drawing.ts";
import type { Consistency, Design, Icing, Layer } from "#shared/kitchen/model/vocabulary.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";

/** How far a cookie is: a design, and how many of its layers, in order, are laid. */
export interface CookiePoint {
  design: Design;
  laid: number;
}

/** Where a layer stands at a point. */
export type LayerState = "laid" | "next" | "later";

/** An area, its holes by the even-odd rule, or the centre of a line; SVG path data, mm. */
type Shape = { is: "area"; path: string } | { is: "line"; path: string; widthMm: number };

/** One area or line of a cookie as it looks at a point. */
export type CookiePart = Shape & { hex: string; state: LayerState };

/** What a cookie looks like at a point; lengths in mm. */
export interface CookiePicture {
  box: { x: number; y: number; width: number; height: number };
  /** The biscuit's edge, as SVG path data. */
  outline: string;
  /** In the order in which they are laid. */
  parts: readonly CookiePart[];
}

/** Where a tray's cookies are on their way; nothing of a design that is not known. The layer in hand is the next. */
export function trayCookie(kitchen: Kitchen, tray: Tray): CookiePoint | undefined {
  const design = kitchen.designs[tray.designId];
  return design && { design, laid: tray.films.length };
}

/** A design with all its layers laid. */
export const finishedCookie = (design: Design): CookiePoint => ({ design, laid: design.layers.length });

export const layerState = (layer: number, laid: number): LayerState =>
  layer < laid ? "laid" : layer === laid ? "next" : "later";

/** An icing that is not known. */
const NO_HEX = "#b8b0a4";

/** What of a design is laid at a point, what is next and what comes later. */
export function cookiePicture(
  { design, laid }: CookiePoint,
  icings: Readonly<Record<string, Icing>>,
): CookiePicture {
  const { shapes, ...biscuit } = design.drawing ? drawn(design, design.drawing) : roundBiscuit(design);
  const parts = design.layers.flatMap((layer, index) =>
    (shapes[index] ?? []).map((shape) => ({
      ...shape,
      hex: icings[layer.icingId]?.hex ?? NO_HEX,
      state: layerState(index, laid),
    })),
  );
  return { ...biscuit, parts };
}

/** A design's shapes, those of each layer by its index. */
interface Shapes extends Pick<CookiePicture, "box" | "outline"> {
  shapes: readonly (readonly Shape[])[];
}

/** What each layer covers of its design's drawing; a layer that names nothing covers all of the cookie. */
function drawn({ layers }: Design, { widthMm, heightMm, outline, areas, lines }: Drawing): Shapes {
  const shapesOf = ({ consistency, covers }: Layer): Shape[] => {
    if (covers === undefined) return [shapeOf(consistency, outline, Math.max(widthMm, heightMm))];
    return [
      ...areas
        .filter(({ id }) => covers.areas.includes(id))
        .map(({ d }) => ({ is: "area", path: d }) as const),
      ...lines
        .filter(({ id }) => covers.lines.includes(id))
        .map(({ d, widthMm }) => ({ is: "line", path: d, widthMm }) as const),
    ];
  };
  return { box: { x: 0, y: 0, width: widthMm, height: heightMm }, outline, shapes: layers.map(shapesOf) };
}

/** How wide a piped line is of which nothing is known, in parts of its cookie's size. */
const LINE = 0.035;

/** A path flooded or piped, by what is laid there, on a cookie of this size. */
const shapeOf = (consistency: Consistency, path: string, sizeMm: number): Shape =>
  isPoured(consistency) ? { is: "area", path } : { is: "line", path, widthMm: LINE * sizeMm };

/** Of a biscuit's radius, how much the first layer's takes, and by how much those of all layers narrow it. */
const [FIRST_RADIUS, NARROWING] = [0.86, 0.6];

/** For a design without a drawing: a plain round biscuit, its layers inside one another; what is piped is a ring. */
function roundBiscuit({ sizeMm, layers }: Design): Shapes {
  const radius = sizeMm / 2;
  const ringOf = ({ consistency }: Layer, index: number): Shape[] => {
    const path = circle(radius, radius * (FIRST_RADIUS - (NARROWING * index) / layers.length));
    return [shapeOf(consistency, path, sizeMm)];
  };
  return {
    box: { x: 0, y: 0, width: sizeMm, height: sizeMm },
    outline: circle(radius, radius),
    shapes: layers.map(ringOf),
  };
}

/** Path data of a circle about (`middle`, `middle`), mm. */
function circle(middle: number, radius: number): string {
  const [left, right] = [middle - radius, middle + radius].map(rounded);
  const [r, y] = [rounded(radius), rounded(middle)];
  return `M ${left} ${y} A ${r} ${r} 0 1 1 ${right} ${y} A ${r} ${r} 0 1 1 ${left} ${y} Z`;
}

const rounded = (lengthMm: number): number => Math.round(lengthMm * 100) / 100;
