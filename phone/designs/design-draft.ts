import type { IcingId } from "#shared/ids.ts";
import { measuredLayers, type MeasuredDrawing } from "#shared/kitchen/drawn/measured.ts";
import { USUAL_MM } from "#shared/kitchen/forecast/films.ts";
import type { Consistency, Design, Layer } from "#shared/kitchen/model/vocabulary.ts";

/** A layer being written: numbers may be missing while they are typed. */
export type LayerDraft = {
  [Key in keyof Layer]: Key extends "thicknessMm" | "narrowestMm" ? number | undefined : Layer[Key];
};

export type DesignDraft = Omit<Design, "layers"> & { layers: LayerDraft[] };

/** A consistency's name in the phone's language: what a layer is called until someone says otherwise. */
export type NameOf = (consistency: Consistency) => string;

/** Practice, no source. */
const USUAL_NARROWEST_MM: Readonly<Record<Consistency, number>> = {
  outline: 2,
  flood: 40,
  "top-coat": 40,
  detail: 3,
};

/** A film as people choose it, beside the usual one. Practice, no source. */
const THICKNESS_SHARES = { thin: 0.7, usual: 1, thick: 1.4 } as const;
export type Thickness = keyof typeof THICKNESS_SHARES;
export const THICKNESSES = Object.keys(THICKNESS_SHARES) as Thickness[];

/** How thick that is for a consistency, mm. */
export const thicknessMm = (consistency: Consistency, thickness: Thickness): number =>
  Math.round(USUAL_MM[consistency] * THICKNESS_SHARES[thickness] * 10) / 10;

/** What a layer of a consistency is until someone says otherwise. */
export const usualLayer = (consistency: Consistency, icingId: IcingId, nameOf: NameOf): LayerDraft => ({
  name: nameOf(consistency),
  consistency,
  icingId,
  thicknessMm: USUAL_MM[consistency],
  narrowestMm: USUAL_NARROWEST_MM[consistency],
});

/** A layer laid in another consistency: its figures and waits were the old one's; its colour, parts and place in the design stay. */
export function inConsistency(layer: LayerDraft, consistency: Consistency, nameOf: NameOf): LayerDraft {
  const { areaCm2: _area, lineMm: _line, waits: _waits, typed: _typed, ...rest } = layer;
  const isOwnName = layer.name !== nameOf(layer.consistency);
  return {
    ...rest,
    ...usualLayer(consistency, layer.icingId, nameOf),
    ...(isOwnName ? { name: layer.name } : {}),
  };
}

/** Without one of its layers: what touches or waits for it does no more, and those above it move down. */
export const withoutLayer = (layers: readonly LayerDraft[], gone: number): LayerDraft[] =>
  reordered(
    layers,
    layers.map((_, k) => k).filter((k) => k !== gone),
  );

/** A layer laid one earlier than it was; what it lay against there lies against it now. */
export function movedUp(layers: readonly LayerDraft[], layer: number): LayerDraft[] {
  const before = layer - 1;
  const order = layers.map((_, k) => (k === before ? layer : k === layer ? before : k));
  const didTouch = layers[layer]?.touches?.includes(before) ?? true;
  return reordered(layers, order).map((own, k) =>
    k === layer && own.touches !== undefined && didTouch && !own.touches.includes(before)
      ? { ...own, touches: [...own.touches, before].toSorted((a, b) => a - b) }
      : own,
  );
}

/** Layers in another order, by where each stood; what they name goes with them, as far as it is still laid earlier. */
function reordered(layers: readonly LayerDraft[], order: readonly number[]): LayerDraft[] {
  return order.map((from, k) => {
    const { touches, waits, ...rest } = layers[from]!;
    const now = (layer: number): number => order.indexOf(layer);
    const isEarlier = (layer: number): boolean => now(layer) >= 0 && now(layer) < k;
    return {
      ...rest,
      ...(touches && {
        touches: touches
          .filter(isEarlier)
          .map(now)
          .toSorted((a, b) => a - b),
      }),
      ...(waits && {
        waits: waits
          .filter(({ layer }) => isEarlier(layer))
          .map(({ layer, need }) => ({ layer: now(layer), need })),
      }),
    };
  });
}

/** Layers of a design whose drawing became another: they go on covering what has the same name, as measured now. */
export function onDrawing(measured: MeasuredDrawing, layers: readonly LayerDraft[]): LayerDraft[] {
  const { areas, lines } = measured.drawing;
  const kept = layers.map(({ covers, ...layer }): LayerDraft => ({
    ...layer,
    ...(covers && {
      covers: {
        areas: covers.areas.filter((id) => areas.some((area) => area.id === id)),
        lines: covers.lines.filter((id) => lines.some((line) => line.id === id)),
      },
    }),
  }));
  return measuredLayers(measured, kept);
}

/** A name that no other thing has: as given, else with a number after it. */
export function freeName(taken: readonly string[], name: string): string {
  const lower = new Set(taken.map((one) => one.toLowerCase()));
  for (let k = 1; ; k += 1) {
    const tried = k === 1 ? name : `${name} ${k}`;
    if (!lower.has(tried.toLowerCase())) return tried;
  }
}
