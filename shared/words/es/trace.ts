import type { Formats, Plural } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { icing } from "./icing.ts";
import { terms } from "./terms.ts";

const TRAYS: Plural = { one: "bandeja", other: "bandejas" };
const LAYERS: Plural = { one: "capa", other: "capas" };
const BATCHES: Plural = { one: "tanda", other: "tandas" };

export const trace = (format: Formats): Words["trace"] => {
  const { name, when, number, count, plural, sentence } = format;
  const { kind } = icing(format);
  const { cookies } = terms(format);
  const batch: Words["trace"]["batch"] = ({ of, mixedAtMs }, nowMs) =>
    `${kind(of)}, mezclado ${when(mixedAtMs, nowMs)}`;
  return {
    batch,
    gone: "Esta tanda ya no se conserva.",
    by: (by) => `por ${name(by ?? "la cocina")}`,
    usedUp: (atMs, nowMs) => `Terminado ${when(atMs, nowMs)}`,
    madeBy: (recipe) => `Receta: ${name(recipe)}`,
    allergens: (words) => `Alérgenos, según decía entonces su receta: ${words}`,
    noAllergens: "Con esta tanda no se anotó ningún alérgeno. Eso no significa que no los tenga.",
    wrong: "Esta tanda salió mal",
    wrongWhy: (why) => `Esta tanda salió mal: ${why}`,
    saidBy: (by, atMs, nowMs) => `lo dijo ${name(by ?? "la cocina")}, ${when(atMs, nowMs)}`,
    changeWrong: "Cambiar lo que salió mal",
    notWrong: "No salió mal",
    whatWrong: (of) => `¿Qué salió mal? ${sentence(kind(of))}`,
    why: "Qué salió mal",
    whyHint: "Se muestra en sus bandejas y pedidos. Se puede deshacer.",
    say: "Anotarlo",
    saidWrong: (of) => `${sentence(kind(of))}: anotado que salió mal`,
    saidRight: (of) => `${sentence(kind(of))}: anotado que salió bien`,
    laid: "Puesto con esta tanda",
    noneLaid: "Aún no se puso nada con ella.",
    orderGone: "ya no está en el tablero",
    laidPart: ({ design, layer, earliestMs, latestMs }) =>
      `${name(design)}, capa ${layer + 1}, puesta ${earliestMs === latestMs ? format.time(earliestMs) : format.timeRange(earliestMs, latestMs)}`,
    trayIs: { "on the board": "", packed: "empacada", archived: "archivada" },
    usedLately: "Tandas terminadas",
    ofTray: "Tandas de glaseado",
    layer: (layer, of) => `Capa ${layer + 1}, ${kind(of)}`,
    mixedAt: (atMs, nowMs) => `tanda mezclada ${when(atMs, nowMs)}`,
    noBatch: "sin tanda anotada",
    trayWrong: (layer, batchOf, why, nowMs) =>
      `Capa ${layer + 1}: la tanda salió mal (${batch(batchOf, nowMs)}): ${why}`,
    ofOrder: "Alérgenos y glaseado",
    ownWords: (words) => `En el pedido: ${words}`,
    fromBatches: (words, batches, nowMs) =>
      `De su glaseado: ${words} (${format.and(batches.map((one) => batch(one, nowMs)))})`,
    noOwnWords: "En el pedido no hay alérgenos anotados.",
    orderWrong: (batchOf, numbers, why, nowMs) =>
      `Salió mal la tanda ${batch(batchOf, nowMs)}: ${why}. Está en ${plural(numbers.length, TRAYS)} ${sayNumbers(numbers)}.`,
    unknown: ({ untold, layersLaid, layersUnknown, layersToLay, cookiesGiven }) => [
      ...(untold.length === 0 ? [] : [`${count(untold.length, BATCHES)} sin alérgenos anotados.`]),
      ...(layersUnknown === 0
        ? []
        : [`${number(layersUnknown)} de ${count(layersLaid, LAYERS)} puestas sin tanda anotada.`]),
      ...(layersToLay === 0 ? [] : [`${count(layersToLay, LAYERS)} por poner.`]),
      ...(cookiesGiven === 0
        ? []
        : [`${cookies(cookiesGiven)} de otros pedidos: su glaseado se indica en ellos.`]),
    ],
    noAllClear:
      "Son palabras de su propia cocina, hasta donde se anotaron. Nada aquí dice que algo no esté en las galletas.",
    recipes: {
      none: "Aún no hay recetas. Sin receta propia, el glaseado por mezclar sigue dos recetas habituales.",
      add: "Añadir una receta",
      change: "Cambiar la receta",
      gone: "Esta receta ya no está aquí.",
      name: "Nombre de la receta",
      ingredient: (k) => `Ingrediente ${k + 1}`,
      ingredientName: "Qué",
      amount: "Cuánto",
      unit: "Unidad",
      units: { g: "gramos", mL: "mililitros" },
      addIngredient: "Añadir un ingrediente",
      removeIngredient: (k) => `Quitar el ingrediente ${k + 1}`,
      allergens: "Alérgenos",
      allergensHint: "Con las palabras de su cocina. Cada tanda hecha con ella los lleva consigo.",
      allergensAre: (words) => `Alérgenos: ${words}`,
      noAllergens: "Aquí no hay alérgenos anotados. Eso no significa que no los tenga.",
      method: "Preparación",
      line: (icings, massG) =>
        `${format.mass(massG)} tal como está escrita${icings.length === 0 ? "" : ` · ${format.and(icings.map(name))}`}`,
      wanted: "Cuánto se hará",
      toMake: (massG) => `Lo que hay por mezclar: ${format.mass(massG)}`,
      asWritten: (massG) => `Como está escrita: ${format.mass(massG)}`,
      millilitres: "Un mililitro cuenta como un gramo.",
      parts: "Ingrediente",
      howMuch: "Cantidad",
      forIcings: (recipe, icings, massG) =>
        `${name(recipe)}: ${format.mass(massG)} para ${format.and(icings.map(name))}`,
      usualForRest: "Para los demás glaseados, dos recetas habituales",
      ofIcing: "Se hace con",
      noRecipe: "sin receta propia",
      batchBy: (recipe, allergens) =>
        allergens === undefined
          ? `Con ${name(recipe)}, que no indica alérgenos.`
          : `Con ${name(recipe)}. Alérgenos: ${allergens}.`,
    },
  };
};
