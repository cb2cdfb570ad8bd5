import type { LayerFact } from "#shared/kitchen/tray/layer-waits.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { terms } from "./terms.ts";

export const designs = (format: Formats): Words["designs"] => {
  const { name, length } = format;
  const { consistencies, layer } = terms(format);
  const waits = (of: LayerFact["waits"]): string => {
    if (of.length === 0) return "se pone enseguida";
    const each = of.map((wait) => {
      const which = layer(wait.layer, wait.icing);
      return wait.need === "skin" ? `la costra de la ${which}` : `el secado completo de la ${which}`;
    });
    return `espera ${format.and(each)}`;
  };
  return {
    none: "Aún no hay diseños.",
    add: "Añadir un diseño",
    needsIcing: "Un diseño necesita antes un glaseado: añada uno en Glaseados.",
    title: (design, sizeMm) => `${name(design)} · ${length(sizeMm)}`,
    layer: ({ layer, icing, consistency, thicknessMm, waits: of }) =>
      `${layer + 1}. ${name(icing ?? "glaseado")}, ${consistencies[consistency]}, ${length(thicknessMm)}${layer === 0 ? "" : `: ${waits(of)}`}`,
    name: "Nombre del diseño",
    size: "Galleta, lado más largo",
    layerTitle: (layer) => `Capa ${layer + 1}`,
    layerWaits: (layer, of) => `La capa ${layer + 1} ${waits(of)}`,
    layerName: "Qué es",
    consistency: "Consistencia",
    consistencies: {
      outline: { name: "Contorno", hint: "espeso, con manga" },
      flood: { name: "Relleno", hint: "el más fluido, dentro de un contorno" },
      "top-coat": { name: "Cobertura", hint: "sin contorno, más espesa que el relleno" },
      detail: { name: "Detalle", hint: "encima" },
    },
    icing: "Glaseado",
    thickness: "Grosor de la capa",
    narrowest: "Parte más pequeña, ancho más estrecho",
    narrowestHint: "Las partes pequeñas pueden hundirse en el centro si no se fijan con calor.",
    area: "Área por galleta, si se sabe",
    areaHint: "Para saber cuánto glaseado mezclar.",
    removeLayer: (layer) => `Quitar la capa ${layer + 1}`,
    addLayer: "Añadir una capa",
    against: (layer, layerName) => `Junto a la capa ${layer + 1} (${name(layerName)})`,
    needs: {
      usual: "lo normal: otro color espera la costra",
      wet: "ponerla húmedo sobre húmedo",
      skin: "esperar la costra",
      "dry through": "esperar el secado completo",
      apart: "no toca esa capa",
    },
  };
};
