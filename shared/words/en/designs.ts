import type { LayerFact } from "#shared/kitchen/tray/layer-waits.ts";
import type { Band } from "#shared/drying/uncertainty/band.ts";
import type { Consistency, Need } from "#shared/kitchen/model/vocabulary.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { drying } from "./drying.ts";
import { terms } from "./terms.ts";

const AREAS: Plural = { one: "area", other: "areas" };
const LINES: Plural = { one: "line", other: "lines" };

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
    /** "80 × 112 mm". */
    archived: (count: number) => `Archived (${format.number(count)})`,
    isArchived: "Archived: not offered for new trays.",
    copy: "Copy",
    copyOf: (design: string) => `${design} copy`,
    copied: (design: string) => `${name(design)} copied`,
    archive: "Archive",
    archiveDone: (design: string) => `${name(design)} archived`,
    unarchive: "Use again",
    unarchiveDone: (design: string) => `${name(design)} in use again`,
    delete: "Delete",
    gone: "This design is not here any more.",
    // The form.
    layersInOrder: "Layers, in order",
    changeDrawing: "Change the drawing",
    addDrawing: "Add a drawing",
    noDrawing: "Nothing is drawn: what each layer covers is typed by hand.",
    drawingChanged: "The layers cover what has the same name in the new drawing: check each of them.",
    /** "Flood", "Moss, 2 areas". */
    covers: (areas: number, lines: number) =>
      format.and([
        ...(areas > 0 ? [format.count(areas, AREAS)] : []),
        ...(lines > 0 ? [format.count(lines, LINES)] : []),
      ]),
    coversNothing: (layer: number) =>
      `Layer ${layer + 1} covers nothing: tap what it covers on the drawing, or remove the layer.`,
    lineWide: (widthMm: number) => `lines ${length(widthMm)} wide`,
    narrowestIs: (mm: number) => `narrowest ${length(mm)}`,
    thicknesses: { thin: "thin", usual: "usual", thick: "thick", own: "of your own" },
    ownThickness: "Thickness of your own",
    whatItCovers: "What it covers: tap it",
    asAList: "Choose from a list",
    tapToChange: (part: string, isCovered: boolean) =>
      isCovered ? `${part}: covered by this layer` : `${part}: not covered by this layer`,
    figures: "Area, length and narrowest span",
    liesAgainst: "What it lies against",
    measured: "measured",
    typed: "typed by hand",
    backToMeasured: (figure: string) => `Back to measured: ${figure}`,
    backToMeasuredTouches: "Back to what the drawing shows",
    line: "Line per cookie",
    moveUp: (layer: number) => `Move up: layer ${layer + 1}`,
    moveDown: (layer: number) => `Move down: layer ${layer + 1}`,
    up: "Move up",
    down: "Move down",
    // A tray in today's air.
    outlook: {
      title: (count: number) => `A tray of ${format.number(count)}, in today's air`,
      working: "Working it out…",
      hands: (min: number) => `${format.span(min)} of hands`,
      packed: (of: Band) =>
        "never" in of
          ? `never dry: ${drying(format).why(of.never)}`
          : `dry ${format.bandOf(of)} after the start`,
      layer: (which: number, icing: string | undefined, skin: Band, dry: Band) =>
        `${format.sentence(layer(which, icing))}: ${"never" in skin ? "never skins" : `skin ${format.bandOf(skin)}`}, ${"never" in dry ? "never dry through" : `dry through ${format.bandOf(dry)}`}`,
      sinks: (layers: readonly number[], withinMin: number) =>
        `${layers.length === 1 ? "Layer" : "Layers"} ${format.and(layers.map((k) => format.number(k + 1)))} may sink: heat within ${format.span(withinMin)} of flooding`,
      bleeds: (pairs: readonly (readonly [string, string])[]) =>
        `A bleed would show: ${format.and(pairs.map(([one, other]) => `${name(one)} beside ${name(other)}`))}`,
      icing: (each: readonly { name: string; massG: number }[]) =>
        `Icing: ${format.and(each.map((one) => `${name(one.name)} ${format.mass(one.massG).replace(" ", "\u00a0")}`))}`,
      guessed: "Some of it is guessed from the cookie's size.",
      notYet: "Fill in the layers to see what a tray comes to.",
    },
    name: "Design's name",
    size: "Cookie, longest edge",
    waits: (of: LayerFact["waits"]) => format.sentence(waits(of)),
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
