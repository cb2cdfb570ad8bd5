import * as v from "valibot";
import { line, moment, oneOf, whole } from "#shared/fields.ts";

const layerFact = v.object({ layer: whole(0, 11), icing: v.optional(line(40)) });
/** A layer, counted from 0, with the name of its icing where that is known. */
export type LayerFact = v.InferOutput<typeof layerFact>;

/** What may go wrong with an act done sooner than it should be; accepted, it is kept with the film. Layers count from 0. */
export const RiskFact = v.object({
  act: oneOf(["lay", "pack"]),
  tray: whole(1, 9999),
  /** What is not there yet. */
  layers: v.array(layerFact),
  need: oneOf(["skin", "dry through"]),
  /** When it likely will be; absent where that is not known, or it never will. */
  fromMs: v.optional(moment),
  untilMs: v.optional(moment),
  never: v.optional(v.boolean()),
  /** Of laying: with which icing, how it is laid, and whether a bleed would show. */
  icing: v.optional(line(40)),
  verb: v.optional(oneOf(["pipe", "flood", "top-coat"])),
  wouldShow: v.optional(v.boolean()),
});
export type RiskFact = v.InferOutput<typeof RiskFact>;

/** An accepted risk; logs from before risks were facts hold a sentence. */
export const Risk = v.union([RiskFact, line(280)]);
export type Risk = v.InferOutput<typeof Risk>;
