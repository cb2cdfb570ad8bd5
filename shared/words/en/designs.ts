import type { LayerFact } from "#shared/kitchen/tray/layer-waits.ts";
import type { Consistency, Need } from "#shared/kitchen/model/vocabulary.ts";
import type { Formats } from "#shared/words/formats.ts";
import { terms } from "./terms.ts";

/** Designs and their layers. Layers count from 0. */
export const designs = (format: Formats) => {
  const { name, length } = format;
  const { consistencies, layer } = terms(format);
  /** "waits for the skin of layer 1 (storm)". */
  const waits = (of: LayerFact["waits"]): string => {
    if (of.length === 0) return "laid at once";
    const each = of.map((wait) => {
      const which = layer(wait.layer, wait.icing);
      return wait.need === "skin" ? `the skin of ${which}` : `${which} to dry through`;
    });
    return `waits for ${format.and(each)}`;
  };
  return {
    none: "No designs yet.",
    add: "Add a design",
    needsIcing: "A design needs an icing first: add one under Icings.",
    title: (design: string, sizeMm: number) => `${name(design)} · ${length(sizeMm)}`,
    /** "2. butter, flood, 2.4 mm: waits for the skin of layer 1 (storm)". */
    layer: ({ layer, icing, consistency, thicknessMm, waits: of }: LayerFact) =>
      `${layer + 1}. ${name(icing ?? "icing")}, ${consistencies[consistency]}, ${length(thicknessMm)}${layer === 0 ? "" : `: ${waits(of)}`}`,
    // The form.
    name: "Design's name",
    size: "Cookie, longest edge",
    layerTitle: (layer: number) => `Layer ${layer + 1}`,
    layerWaits: (layer: number, of: LayerFact["waits"]) =>
      of.length === 0 ? `Layer ${layer + 1}: laid at once` : `Layer ${layer + 1} ${waits(of)}`,
    layerName: "What it is",
    consistency: "Consistency",
    /** As a layer's name, and to choose by. */
    consistencies: {
      outline: { name: "Outline", hint: "thick, piped" },
      flood: { name: "Flood", hint: "loosest, inside an outline" },
      "top-coat": { name: "Top-coat", hint: "no outline, thicker than flood" },
      detail: { name: "Detail", hint: "on top" },
    } satisfies Record<Consistency, { name: string; hint: string }>,
    icing: "Icing",
    thickness: "Thickness of the layer",
    narrowest: "Smallest section, narrowest span",
    narrowestHint: "Small sections may sink in the middle unless they are set with heat.",
    area: "Area per cookie, if known",
    areaHint: "For how much icing to mix.",
    removeLayer: (layer: number) => `Remove layer ${layer + 1}`,
    addLayer: "Add a layer",
    against: (layer: number, layerName: string) => `Against layer ${layer + 1} (${name(layerName)})`,
    needs: {
      usual: `as usual: another ${format.units === "us" ? "color" : "colour"} waits for the skin`,
      wet: "lay it wet on wet",
      skin: "wait for the skin",
      "dry through": "wait until dry through",
      apart: "it does not touch that layer",
    } satisfies Record<Need | "usual" | "apart", string>,
  };
};
