import { describe, expect, it } from "vitest";
import { batchOf } from "#shared/kitchen/model/lookups.ts";
import { undoOf } from "#shared/kitchen/commands/decide.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import { MOST } from "#shared/limits.ts";
import { said } from "#tests/support/said.ts";
import { aKitchen, HOUR, id, MIN, type Scene } from "../support/scene.ts";

const refusalOf = (decision: ReturnType<Scene["ask"]>): string => {
  if (decision.ok) throw new Error("was taken, not refused");
  return said(decision.refusal);
};

/** A batch that fits the Moons' icing, as `id`. */
function mixed(scene: Scene, batchId: string, more: object = {}): void {
  const { consistency, icingId } = scene.kitchen.designs["moon"]!.layers[0]!;
  const batch = { id: batchId, icingId, consistency, mixedAtMs: scene.nowMs };
  scene.act("record-batch", { batch: { ...batch, useByAtMs: scene.nowMs + 8 * HOUR, ...more } });
}

describe("K63 a batch that is used up is kept with the layers laid from it", () => {
  it("of trays that stand by their films, of archived ones by what they left", () => {
    const scene = aKitchen();
    mixed(scene, "b1");
    scene.later(MIN).act("flooded", { trayId: "t2" });
    scene.act("finish-batch", { batchId: "b1" });
    expect(scene.kitchen.batches["b1"]).toBeUndefined();
    expect(batchOf(scene.kitchen, "b1")).toMatchObject({ goneAtMs: scene.nowMs });
    expect(scene.tray("t2").films[0]?.bowl?.id).toBe("b1");
    // Nothing more is laid from it.
    scene.later(2 * HOUR).act("flooded", { trayId: "t3" });
    expect(scene.tray("t3").films[0]?.bowl?.id).not.toBe("b1");
    scene.later(20 * HOUR).act("pack", { trayId: "t2", acceptRisk: true });
    scene
      .as("kitchen", "kitchen")
      .later(60 * HOUR)
      .act("archive", {});
    expect(scene.kitchen.trays["t2"]).toBeUndefined();
    expect(batchOf(scene.kitchen, "b1")?.uses).toMatchObject([
      { tray: 7, orderId: "walk", order: "Lantern Walk", design: "Moon", layer: 0 },
    ]);
  });

  it("said by mistake to be used up it stands again, as it was", () => {
    const scene = aKitchen();
    mixed(scene, "b1", { massG: 400, allergens: "egg" });
    scene.act("judge-batch", { batchId: "b1", wrong: "lumps" });
    const before = scene.kitchen;
    const command = { type: "finish-batch", commandId: id("c1"), batchId: id("b1") } as Command;
    scene.send(command);
    scene.send({ commandId: id("c2"), ...undoOf(command, before)! });
    expect(scene.kitchen.batches["b1"]).toEqual(before.batches["b1"]);
    expect(scene.kitchen.usedBatches).toEqual({});
  });

  it("the newest are kept, bounded", () => {
    const scene = aKitchen();
    for (let k = 0; k < MOST.usedBatches + 3; k += 1) {
      mixed(scene, `b${k}`);
      scene.later(1000).act("finish-batch", { batchId: `b${k}` });
    }
    expect(Object.keys(scene.kitchen.usedBatches ?? {})).toHaveLength(MOST.usedBatches);
    expect(batchOf(scene.kitchen, "b2")).toBeUndefined();
    expect(batchOf(scene.kitchen, `b${MOST.usedBatches + 2}`)).toBeDefined();
  });
});

it("K64 something was wrong with a batch, standing or used up, and that is taken back", () => {
  const scene = aKitchen();
  mixed(scene, "b1");
  const wrong = () => batchOf(scene.kitchen, "b1")?.wrong;
  const judge = (why: string | null): Command => ({
    type: "judge-batch",
    commandId: id(String(why)),
    batchId: id("b1"),
    wrong: why,
  });
  scene.send(judge("Sugar not sieved"));
  expect(wrong()).toEqual({ why: "Sugar not sieved", atMs: scene.nowMs, by: "wren" });
  scene.act("finish-batch", { batchId: "b1" });
  const before = scene.kitchen;
  scene.send(judge("Too sweet"));
  scene.send({ ...undoOf(judge("Too sweet"), before)!, commandId: id("undo") });
  expect(wrong()?.why).toBe("Sugar not sieved");
  scene.send(judge(null));
  expect(wrong()).toBeUndefined();
  expect(refusalOf(scene.ask("judge-batch", { batchId: "none", wrong: "x" }))).toBe(
    "That batch is used up, thrown away or archived already.",
  );
});

it("K65 a recipe that an icing is made by is not removed", () => {
  const scene = aKitchen().as("ida", "lead");
  const recipe = {
    id: "base",
    name: "Base",
    ingredients: [{ name: "Icing sugar", amount: 1000, unit: "g" }],
  };
  scene.act("put-recipe", { recipe });
  const butter = scene.kitchen.icings["butter"]!;
  expect(refusalOf(scene.ask("put-icing", { icing: { ...butter, recipeId: "other" } }))).toBe(
    "icing.recipeId must name one of the kitchen's recipes.",
  );
  scene.act("put-icing", { icing: { ...butter, recipeId: "base" } });
  expect(refusalOf(scene.ask("remove-recipe", { recipeId: "base" }))).toContain("is made by Base");
  expect(refusalOf(scene.ask("put-recipe", { recipe: { ...recipe, id: "twin", name: "BASE" } }))).toBe(
    "There is a recipe called Base already.",
  );
  mixed(scene, "b1", { recipeId: "base", allergens: "egg" });
  scene.act("put-recipe", { recipe: { ...recipe, allergens: "egg, milk" } });
  expect(batchOf(scene.kitchen, "b1")?.allergens).toBe("egg");
  scene.act("put-icing", { icing: butter });
  scene.act("remove-recipe", { recipeId: "base" });
  expect(scene.kitchen.recipes).toEqual({});
});

it("K66 one note stands for whoever works next, until it is dealt with", () => {
  const scene = aKitchen();
  scene.act("leave-note", { text: "Rack B is for tomorrow" });
  scene.later(MIN).as("sol").act("leave-note", { text: "Oven 1 is slow" });
  expect(scene.kitchen.note).toEqual({ text: "Oven 1 is slow", by: "sol", atMs: scene.nowMs });
  scene.act("leave-note", { text: null });
  expect(scene.kitchen.note).toBeUndefined();
});
