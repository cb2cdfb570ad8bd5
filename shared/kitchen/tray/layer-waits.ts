import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Consistency, Design, Need } from "#shared/kitchen/model/vocabulary.ts";
import { needsOf } from "./route.ts";

/** A layer of a design, and the earlier layers it waits for. Layers count from 0; `icing` is a name as typed. */
export interface LayerFact {
  layer: number;
  icing: string | undefined;
  consistency: Consistency;
  thicknessMm: number;
  waits: readonly LayerWait[];
}

export interface LayerWait {
  layer: number;
  icing: string | undefined;
  need: Exclude<Need, "wet">;
}

/** What a layer waits for; nothing where it may be laid at once. */
export const waitsOf = (kitchen: Kitchen, design: Pick<Design, "layers">, layer: number): LayerWait[] =>
  needsOf(design, layer).flatMap(({ layer, need }) =>
    need === "wet" ? [] : [{ layer, need, icing: kitchen.icings[design.layers[layer]?.icingId ?? ""]?.name }],
  );

/** A design's layers in order. */
export const layersOf = (kitchen: Kitchen, design: Design): LayerFact[] =>
  design.layers.map(({ icingId, consistency, thicknessMm }, layer) => ({
    layer,
    icing: kitchen.icings[icingId]?.name,
    consistency,
    thicknessMm,
    waits: waitsOf(kitchen, design, layer),
  }));
