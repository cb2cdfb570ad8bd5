import { describe, expect, it } from "vitest";
import { baseRecipes, icingToMix } from "#shared/kitchen/mixing/icing-needed.ts";
import { ownRecipes, recipeFacts, recipeMassG, scaledTo } from "#shared/kitchen/mixing/recipes.ts";
import { Recipe } from "#shared/kitchen/model/vocabulary.ts";
import { parse } from "#shared/fields.ts";
import { aKitchen, id, type Scene } from "../support/scene.ts";

const HOUSE: Recipe = {
  id: id("house"),
  name: "House icing",
  ingredients: [
    { name: "Icing sugar", amount: 900, unit: "g" },
    { name: "Meringue powder", amount: 50, unit: "g" },
    { name: "Water", amount: 150, unit: "mL" },
  ],
  allergens: "egg",
};

function withHouse(icingIds: readonly string[]): Scene {
  const scene = aKitchen().as("ida", "lead");
  scene.act("put-recipe", { recipe: HOUSE });
  for (const icingId of icingIds)
    scene.act("put-icing", { icing: { ...scene.kitchen.icings[icingId]!, recipeId: HOUSE.id } });
  return scene;
}

describe("I17 an icing's own recipe, scaled to what is to be mixed, stands in place of the usual ones", () => {
  it("a recipe comes to the sum of its parts, and scales in proportion", () => {
    expect(recipeMassG(HOUSE)).toBe(1100);
    expect(scaledTo(HOUSE, 550).map(({ amount }) => amount)).toEqual([450, 25, 75]);
    expect(recipeMassG({ ingredients: scaledTo(HOUSE, 123) })).toBeCloseTo(123, 9);
    expect(() => scaledTo(HOUSE, -1)).toThrow("massG must be 0 g or more");
  });

  it("icings of one recipe are made together; those without go by the usual ones", () => {
    const { kitchen, nowMs } = withHouse(["storm", "butter"]);
    const { mixes } = icingToMix(kitchen, nowMs);
    const { toMake, without } = ownRecipes(kitchen, mixes);
    const baseOf = (...ids: string[]): number =>
      mixes.filter(({ icingId }) => ids.includes(icingId)).reduce((sum, { baseG }) => sum + baseG, 0);
    expect(toMake).toHaveLength(1);
    expect(toMake[0]).toMatchObject({ recipe: HOUSE, icings: ["butter", "storm"] });
    expect(toMake[0]?.massG).toBeCloseTo(baseOf("storm", "butter"), 9);
    expect(without.map(({ icingId }) => icingId)).toEqual(["sea-glass"]);
    for (const { ingredients, moreWaterG } of baseRecipes(without))
      expect(ingredients.reduce((sum, { massG }) => sum + massG, moreWaterG)).toBeCloseTo(
        baseOf("sea-glass"),
        6,
      );
  });

  it("where every icing has its own, the usual ones are not needed", () => {
    const { kitchen, nowMs } = withHouse(["storm", "butter", "sea-glass"]);
    const { without } = ownRecipes(kitchen, icingToMix(kitchen, nowMs).mixes);
    expect(without).toEqual([]);
    expect(baseRecipes(without)).toEqual([]);
  });
});

describe("I18 a batch takes with it which recipe its icing is made by, and that recipe's allergen words", () => {
  it("of an icing with a recipe and without", () => {
    const { kitchen } = withHouse(["storm"]);
    expect(recipeFacts(kitchen, "storm")).toEqual({ recipeId: "house", allergens: "egg" });
    expect(recipeFacts(kitchen, "butter")).toBeUndefined();
    expect(recipeFacts(kitchen, "constructor")).toBeUndefined();
  });

  it("an amount out of range is refused by its field", () => {
    const parsed = parse(Recipe, {
      ...HOUSE,
      ingredients: [{ name: "Icing sugar", amount: 0, unit: "g" }],
    });
    expect(parsed).toMatchObject({
      ok: false,
      refusal: { field: "ingredients.0.amount", must: { is: "between", min: 0.1, max: 100_000 } },
    });
  });
});
