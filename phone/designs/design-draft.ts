import type { IcingId } from "#shared/ids.ts";
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

/** What a layer of a consistency is until someone says otherwise. */
export const usualLayer = (consistency: Consistency, icingId: IcingId, nameOf: NameOf): LayerDraft => ({
  name: nameOf(consistency),
  consistency,
  icingId,
  thicknessMm: USUAL_MM[consistency],
  narrowestMm: USUAL_NARROWEST_MM[consistency],
});

/** A layer laid in another consistency: its figures and waits were the old one's; its colour and place in the design stay. */
export function inConsistency(layer: LayerDraft, consistency: Consistency, nameOf: NameOf): LayerDraft {
  const { areaCm2: _area, waits: _waits, ...rest } = layer;
  const isOwnName = layer.name !== nameOf(layer.consistency);
  return {
    ...rest,
    ...usualLayer(consistency, layer.icingId, nameOf),
    ...(isOwnName ? { name: layer.name } : {}),
  };
}

/** Without one of its layers: what touches or waits for it does no more, and those above it move down. */
export function withoutLayer(layers: readonly LayerDraft[], gone: number): LayerDraft[] {
  const down = (k: number): number => (k > gone ? k - 1 : k);
  return layers
    .filter((_, k) => k !== gone)
    .map(({ touches, waits, ...rest }) => ({
      ...rest,
      ...(touches && { touches: touches.filter((k) => k !== gone).map(down) }),
      ...(waits && {
        waits: waits
          .filter(({ layer }) => layer !== gone)
          .map(({ layer, need }) => ({ layer: down(layer), need })),
      }),
    }));
}
