import type { MixedKind } from "#shared/kitchen/mixing/batches.ts";
import type { LaidLayer, LaidPart } from "#shared/kitchen/mixing/batch-trace.ts";
import type { BatchState } from "#shared/kitchen/model/state.ts";
import type { OrderBatches } from "#shared/kitchen/orders/order-batches.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { icing } from "./icing.ts";
import { terms } from "./terms.ts";

const TRAYS: Plural = { one: "tray", other: "trays" };
const LAYERS: Plural = { one: "layer", other: "layers" };
const BATCHES: Plural = { one: "batch", other: "batches" };

/** A batch with its icing's name, as a screen lists it. */
export interface NamedBatch extends Pick<BatchState, "mixedAtMs"> {
  of: MixedKind;
}

/** Batches and what was laid from them, recipes, allergens. */
export const trace = (format: Formats) => {
  const { name, when, number, count, plural, sentence } = format;
  const { kind } = icing(format);
  const { cookies } = terms(format);
  /** "storm flood mixed 10:00" */
  const batch = ({ of, mixedAtMs }: NamedBatch, nowMs: number): string =>
    `${kind(of)} mixed ${when(mixedAtMs, nowMs)}`;
  return {
    batch,
    gone: "This batch is not kept any more.",
    by: (by: string | undefined) => `by ${name(by ?? "the kitchen")}`,
    usedUp: (atMs: number, nowMs: number) => `Finished ${when(atMs, nowMs)}`,
    madeBy: (recipe: string) => `Recipe: ${name(recipe)}`,
    allergens: (words: string) => `Allergens, as its recipe said then: ${words}`,
    noAllergens: "No allergen words were recorded with it. That does not mean that there are none.",
    // Something was wrong with it.
    wrong: "This batch was wrong",
    wrongWhy: (why: string) => `This batch was wrong: ${why}`,
    saidBy: (by: string | undefined, atMs: number, nowMs: number) =>
      `said by ${name(by ?? "the kitchen")}, ${when(atMs, nowMs)}`,
    changeWrong: "Change what was wrong",
    notWrong: "Nothing was wrong with it",
    whatWrong: (of: MixedKind) => `What was wrong with ${kind(of)}?`,
    why: "What was wrong",
    whyHint: "It is shown on its trays and orders. You can undo it.",
    say: "Say so",
    saidWrong: (of: MixedKind) => `${sentence(kind(of))}: said to be wrong`,
    saidRight: (of: MixedKind) => `${sentence(kind(of))}: nothing wrong`,
    // What was laid from it.
    laid: "Laid from it",
    noneLaid: "Nothing was laid from it yet.",
    orderGone: "no longer on the board",
    /** "Rain cloud, layer 1, laid 07:52–08:47". */
    laidPart: ({ design, layer, earliestMs, latestMs }: LaidPart) =>
      `${name(design)}, layer ${layer + 1}, laid ${earliestMs === latestMs ? format.time(earliestMs) : format.timeRange(earliestMs, latestMs)}`,
    trayIs: { "on the board": "", packed: "packed", archived: "archived" } satisfies Record<
      LaidLayer["is"],
      string
    >,
    usedLately: "Finished batches",
    // A tray's batches.
    ofTray: "Icing batches",
    layer: (layer: number, of: MixedKind) => `Layer ${layer + 1}, ${kind(of)}`,
    mixedAt: (atMs: number, nowMs: number) => `batch mixed ${when(atMs, nowMs)}`,
    noBatch: "no batch recorded",
    /** Above a tray. */
    trayWrong: (layer: number, batchOf: NamedBatch, why: string, nowMs: number) =>
      `Layer ${layer + 1}: the batch was wrong (${batch(batchOf, nowMs)}): ${why}`,
    // An order's icing.
    ofOrder: "Allergens and icing",
    ownWords: (words: string) => `On the order: ${words}`,
    fromBatches: (words: string, batches: readonly NamedBatch[], nowMs: number) =>
      `From its icing: ${words} (${format.and(batches.map((one) => batch(one, nowMs)))})`,
    noOwnWords: "No allergens are written on the order.",
    orderWrong: (batchOf: NamedBatch, numbers: readonly number[], why: string, nowMs: number) =>
      `${sentence(batch(batchOf, nowMs))} was wrong: ${why}. It is on ${plural(numbers.length, TRAYS)} ${sayNumbers(numbers)}.`,
    /** What is not known of an order's icing, a sentence each. */
    unknown: ({ untold, layersLaid, layersUnknown, layersToLay, cookiesGiven }: OrderBatches): string[] => [
      ...(untold.length === 0 ? [] : [`${count(untold.length, BATCHES)} with no allergen words.`]),
      ...(layersUnknown === 0
        ? []
        : [`No batch is recorded for ${number(layersUnknown)} of ${count(layersLaid, LAYERS)} laid.`]),
      ...(layersToLay === 0 ? [] : [`${count(layersToLay, LAYERS)} still to lay.`]),
      ...(cookiesGiven === 0
        ? []
        : [`${cookies(cookiesGiven)} came from other orders: their icing is told there.`]),
    ],
    noAllClear:
      "These are your kitchen's own words, as far as they were recorded. Nothing here says that something is not in the cookies.",
    // Recipes.
    recipes: {
      none: "No recipes yet. Without one, icing to mix goes by two usual recipes.",
      add: "Add a recipe",
      change: "Change the recipe",
      gone: "This recipe is not here any more.",
      name: "Recipe's name",
      ingredient: (k: number) => `Ingredient ${k + 1}`,
      ingredientName: "What",
      amount: "How much",
      unit: "Unit",
      units: { g: "grams", mL: "millilitres" },
      addIngredient: "Add an ingredient",
      removeIngredient: (k: number) => `Remove ingredient ${k + 1}`,
      allergens: "Allergens",
      allergensHint: "In your kitchen's own words. Each batch made by it takes them along.",
      allergensAre: (words: string) => `Allergens: ${words}`,
      noAllergens: "No allergens are written here. That does not mean that there are none.",
      method: "Method",
      /** In the list. */
      line: (icings: readonly string[], massG: number) =>
        `${format.mass(massG)} as written${icings.length === 0 ? "" : ` · ${format.and(icings.map(name))}`}`,
      wanted: "How much to make",
      toMake: (massG: number) => `What is to be mixed: ${format.mass(massG)}`,
      asWritten: (massG: number) => `As written: ${format.mass(massG)}`,
      millilitres: "A millilitre counts as a gram.",
      parts: "Ingredient",
      howMuch: "Amount",
      /** In icing to mix. */
      forIcings: (recipe: string, icings: readonly string[], massG: number) =>
        `${name(recipe)}: ${format.mass(massG)} for ${format.and(icings.map(name))}`,
      usualForRest: "For the other icings, two usual recipes",
      ofIcing: "Made by",
      noRecipe: "no recipe of its own",
      batchBy: (recipe: string, allergens: string | undefined) =>
        allergens === undefined
          ? `By ${name(recipe)}, which names no allergens.`
          : `By ${name(recipe)}. Allergens: ${allergens}.`,
    },
  };
};
