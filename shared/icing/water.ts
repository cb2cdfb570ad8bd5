import { ICING_DENSITY_KG_M3 } from "#shared/drying/film/constants.ts";
import type { Consistency } from "#shared/icing/poured.ts";
import { CUP_ML, mlToTsp } from "#shared/units.ts";

/** Water in each consistency, % of its mass; editable by icing. Fitted to common practice, no source. */
export const WATER_PCT: Readonly<Record<Consistency, number>> = {
  outline: 15.5,
  detail: 15.5,
  "top-coat": 18.5,
  flood: 20.5,
};

/** The stiff icing the others are let down from holds as much water as outline icing. */
export const BASE_WATER_PCT = WATER_PCT.outline;

export type IngredientName = "icing-sugar" | "meringue-powder" | "egg-white" | "water";

export interface Ingredient {
  name: IngredientName;
  massG: number;
  /** Water it brings, % of its own mass. */
  waterPct: number;
}

/** Base icing by weight, from memory; editable. Water shares of the ingredients are from memory too. */
export const BASE_RECIPES: Readonly<Record<"meringue-powder" | "egg-white", readonly Ingredient[]>> = {
  "meringue-powder": [
    { name: "icing-sugar", massG: 1000, waterPct: 0.5 },
    { name: "meringue-powder", massG: 55, waterPct: 6 },
    { name: "water", massG: 165, waterPct: 100 },
  ],
  "egg-white": [
    { name: "icing-sugar", massG: 1000, waterPct: 0.5 },
    { name: "egg-white", massG: 165, waterPct: 88 },
  ],
};

const recipeMassG = (recipe: readonly Ingredient[]): number =>
  recipe.reduce((sum, part) => sum + part.massG, 0);

/** Water share a recipe comes out at, % of its mass. */
export function recipeWaterPct(recipe: readonly Ingredient[]): number {
  return recipe.reduce((sum, part) => sum + part.massG * part.waterPct, 0) / recipeMassG(recipe);
}

/** The recipe scaled to come to `massG` in all. */
export function recipeFor(recipe: readonly Ingredient[], massG: number): Ingredient[] {
  if (!(massG > 0)) throw new RangeError(`massG must be above 0 g, got ${massG}`);
  const scale = massG / recipeMassG(recipe);
  return recipe.map((part) => ({ ...part, massG: part.massG * scale }));
}

/** Water to stir into `baseG` grams of base at `basePct` so that it comes to `wantedPct` (both 5–40 %), g = mL. */
export function waterToStirInG(baseG: number, basePct: number, wantedPct: number): number {
  if (!(baseG >= 0)) throw new RangeError(`baseG must be 0 g or more, got ${baseG}`);
  for (const [field, value] of Object.entries({ basePct, wantedPct }))
    if (!(value >= 5 && value <= 40)) throw new RangeError(`${field} must be 5–40 %, got ${value}`);
  if (wantedPct < basePct)
    throw new RangeError(`wantedPct must be at least the base's ${basePct} %: water can't be taken out`);
  return (baseG * (wantedPct - basePct)) / (100 - wantedPct);
}

/** Teaspoons of water for each US cup of base. */
export function teaspoonsACup(
  wantedPct: number,
  basePct = BASE_WATER_PCT,
  densityKgM3 = ICING_DENSITY_KG_M3,
): number {
  return mlToTsp(waterToStirInG((CUP_ML * densityKgM3) / 1000, basePct, wantedPct));
}

/** What a batch of `mixG` grams is made of: base and the water stirred in, g. */
export function baseAndWater(
  mixG: number,
  wantedPct: number,
  basePct = BASE_WATER_PCT,
): { baseG: number; waterG: number } {
  const baseG = (mixG * (100 - wantedPct)) / (100 - basePct);
  return { baseG, waterG: waterToStirInG(baseG, basePct, wantedPct) };
}
