import { own } from "#shared/collections.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { MixedBatch, Recipe } from "#shared/kitchen/model/vocabulary.ts";
import type { IcingMix } from "./icing-needed.ts";

/** What of the kitchen's own recipes is to be made: its icings' base in all. */
export interface RecipeToMake {
  recipe: Recipe;
  icings: readonly string[];
  massG: number;
}

/** The recipe that an icing is made by; undefined where it has none of its own. */
export function recipeOf({ icings, recipes }: Kitchen, icingId: string): Recipe | undefined {
  const { recipeId } = icings[icingId] ?? {};
  return recipeId === undefined ? undefined : own(recipes ?? {}, recipeId);
}

/** What a batch of an icing takes with it from the icing's recipe. */
export function recipeFacts(
  kitchen: Kitchen,
  icingId: string,
): Pick<MixedBatch, "recipeId" | "allergens"> | undefined {
  const recipe = recipeOf(kitchen, icingId);
  if (recipe === undefined) return undefined;
  return { recipeId: recipe.id, ...(recipe.allergens !== undefined && { allergens: recipe.allergens }) };
}

/** What a recipe comes to, g. A millilitre counts as a gram, as of water; common practice, no source. */
export const recipeMassG = ({ ingredients }: Pick<Recipe, "ingredients">): number =>
  ingredients.reduce((sum, { amount }) => sum + amount, 0);

/** Its ingredients for so much of it. */
export function scaledTo({ ingredients }: Recipe, massG: number): Recipe["ingredients"] {
  if (!(massG >= 0)) throw new RangeError(`massG must be 0 g or more, got ${massG}`);
  const scale = massG / recipeMassG({ ingredients });
  return ingredients.map((part) => ({ ...part, amount: part.amount * scale }));
}

/** The kitchen's own recipes for what is to be mixed, by name; and the icings that have none. */
export function ownRecipes(
  kitchen: Kitchen,
  mixes: readonly IcingMix[],
): { toMake: readonly RecipeToMake[]; without: readonly IcingMix[] } {
  const toMake = new Map<string, RecipeToMake>();
  const without: IcingMix[] = [];
  for (const mix of mixes) {
    const recipe = recipeOf(kitchen, mix.icingId);
    if (recipe === undefined) {
      without.push(mix);
      continue;
    }
    const { icings = [], massG = 0 } = toMake.get(recipe.id) ?? {};
    toMake.set(recipe.id, { recipe, icings: [...icings, mix.name], massG: massG + mix.baseG });
  }
  return {
    toMake: [...toMake.values()].toSorted((a, b) => a.recipe.name.localeCompare(b.recipe.name)),
    without,
  };
}
