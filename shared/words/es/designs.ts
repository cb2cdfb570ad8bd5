import type { LayerFact } from "#shared/kitchen/tray/layer-waits.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { drying } from "./drying.ts";
import { terms } from "./terms.ts";

const AREAS: Plural = { one: "zona", other: "zonas" };
const LINES: Plural = { one: "línea", other: "líneas" };

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
    archived: (count) => `Archivados (${format.number(count)})`,
    isArchived: "Archivado: no se ofrece para bandejas nuevas.",
    copy: "Copiar",
    copyOf: (design) => `${design} copia`,
    copied: (design) => `${name(design)}: copiado`,
    archive: "Archivar",
    archiveDone: (design) => `${name(design)}: archivado`,
    unarchive: "Volver a usar",
    unarchiveDone: (design) => `${name(design)}: en uso de nuevo`,
    delete: "Borrar",
    gone: "Este diseño ya no está aquí.",
    layersInOrder: "Capas, en orden",
    changeDrawing: "Cambiar el dibujo",
    addDrawing: "Añadir un dibujo",
    noDrawing: "No hay nada dibujado: lo que cubre cada capa se escribe a mano.",
    drawingChanged: "Las capas cubren lo que se llama igual en el dibujo nuevo: revise cada una.",
    covers: (areas, lines) =>
      format.and([
        ...(areas > 0 ? [format.count(areas, AREAS)] : []),
        ...(lines > 0 ? [format.count(lines, LINES)] : []),
      ]),
    coversNothing: (layer) =>
      `La capa ${layer + 1} no cubre nada: toque en el dibujo lo que cubre, o quite la capa.`,
    lineWide: (widthMm) => `líneas de ${length(widthMm)} de ancho`,
    narrowestIs: (mm) => `lo más estrecho, ${length(mm)}`,
    thicknesses: { thin: "fino", usual: "normal", thick: "grueso", own: "otro" },
    ownThickness: "Otro grosor",
    whatItCovers: "Qué cubre: tóquelo",
    asAList: "Elegir de una lista",
    tapToChange: (part, isCovered) =>
      isCovered ? `${part}: esta capa lo cubre` : `${part}: esta capa no lo cubre`,
    figures: "Área, longitud y ancho más estrecho",
    liesAgainst: "Junto a qué está",
    measured: "medido",
    typed: "escrito a mano",
    backToMeasured: (figure) => `Volver a lo medido: ${figure}`,
    backToMeasuredTouches: "Volver a lo que muestra el dibujo",
    line: "Línea por galleta",
    moveUp: (layer) => `Subir la capa ${layer + 1}`,
    moveDown: (layer) => `Bajar la capa ${layer + 1}`,
    up: "Subir",
    down: "Bajar",
    outlook: {
      title: (count) => `Una bandeja de ${format.number(count)}, con el aire de hoy`,
      working: "Calculando…",
      hands: (min) => `${format.span(min)} de trabajo`,
      packed: (of) =>
        "never" in of
          ? `no se seca nunca: ${drying(format).why(of.never)}`
          : `seca ${format.bandOf(of)} después de empezar`,
      layer: (which, icing, skin, dry) =>
        `${format.sentence(layer(which, icing))}: ${"never" in skin ? "nunca forma costra" : `costra ${format.bandOf(skin)}`}, ${"never" in dry ? "nunca se seca del todo" : `seca del todo ${format.bandOf(dry)}`}`,
      sinks: (layers, withinMin) =>
        layers.length === 1
          ? `La capa ${format.number(layers[0]! + 1)} puede hundirse: caliéntela en los ${format.span(withinMin)} tras el relleno`
          : `Las capas ${format.and(layers.map((k) => format.number(k + 1)))} pueden hundirse: caliéntelas en los ${format.span(withinMin)} tras el relleno`,
      bleeds: (pairs) =>
        `Si se corre, se notará: ${format.and(pairs.map(([one, other]) => `${name(one)} junto a ${name(other)}`))}`,
      icing: (each) =>
        `Glaseado: ${format.and(each.map((one) => `${name(one.name)} ${format.mass(one.massG).replace(" ", "\u00a0")}`))}`,
      guessed: "Una parte se calcula por el tamaño de la galleta.",
      notYet: "Complete las capas para ver qué supone una bandeja.",
    },
    name: "Nombre del diseño",
    size: "Galleta, lado más largo",
    waits: (of) => format.sentence(waits(of)),
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
