import { describe, expect, it } from "vitest";
import { batchesOfTray, ordersFrom } from "#shared/kitchen/mixing/batch-trace.ts";
import { batchOf } from "#shared/kitchen/model/lookups.ts";
import { orderBatches } from "#shared/kitchen/orders/order-batches.ts";
import { aKitchen, HOUR, MIN, type Scene } from "../support/scene.ts";

/** A batch of what the Moon is laid with, or the first layer of the Lantern. */
function mixed(scene: Scene, batchId: string, more: object = {}, designId = "moon"): void {
  const { consistency, icingId } = scene.kitchen.designs[designId]!.layers[0]!;
  const batch = { id: batchId, icingId, consistency, mixedAtMs: scene.nowMs };
  scene.act("record-batch", { batch: { ...batch, useByAtMs: scene.nowMs + 8 * HOUR, ...more } });
}

const archive = (scene: Scene): void => {
  scene
    .as("kitchen", "kitchen")
    .later(60 * HOUR)
    .act("archive", {});
  scene.as("wren");
};

describe("K67 a tray lists its batches by layer, and a batch the layers laid from it by order, archived trays' among them", () => {
  it("alive and archived trays, once each, in the order laid", () => {
    const scene = aKitchen();
    mixed(scene, "b1");
    scene.later(MIN).act("flooded", { trayId: "t3" });
    scene.later(MIN).act("flooded", { trayId: "t2" });
    const [order, ...others] = ordersFrom(scene.kitchen, "b1");
    expect(others).toEqual([]);
    expect(order).toMatchObject({ orderId: "walk", order: "Lantern Walk", isOpen: true });
    expect(order?.parts).toMatchObject([
      { design: "Moon", layer: 0, earliestMs: scene.nowMs - MIN, latestMs: scene.nowMs },
    ]);
    expect(order?.parts[0]?.layers.map(({ tray, trayId, layer }) => [tray, trayId, layer])).toEqual([
      [8, "t3", 0],
      [7, "t2", 0],
    ]);
    scene.later(20 * HOUR).act("pack", { trayId: "t3", acceptRisk: true });
    archive(scene);
    expect(scene.kitchen.trays["t3"]).toBeUndefined();
    // Its use-by is long past: it is kept for tracing.
    expect(scene.kitchen.batches["b1"]).toBeUndefined();
    const [after] = ordersFrom(scene.kitchen, "b1");
    expect(after?.parts[0]?.layers.map(({ tray, is }) => [tray, is])).toEqual([
      [8, "archived"],
      [7, "on the board"],
    ]);
  });

  it("of a tray each layer has its batch, or none where none was recorded", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t1" });
    const body = { consistency: "flood", icingId: "sea-glass" };
    mixed(scene, "b2", body);
    scene.later(MIN).act("flooded", { trayId: "t1" });
    expect(batchesOfTray(scene.kitchen, scene.tray("t1"))).toMatchObject([
      { layer: 0, kind: { consistency: "outline", icingId: "sea-glass" } },
      { layer: 1, kind: body, batch: { id: "b2" } },
    ]);
    expect(batchesOfTray(scene.kitchen, scene.tray("t1"))[0]).not.toHaveProperty("batch");
    expect(ordersFrom(scene.kitchen, "b2")[0]?.parts).toMatchObject([{ layer: 1, layers: [{ tray: 18 }] }]);
  });

  it("a packed tray whose number is another's by now is not the one that bears it", () => {
    const scene = aKitchen();
    mixed(scene, "b1");
    scene.act("flooded", { trayId: "t2" });
    const laid = () => ordersFrom(scene.kitchen, "b1")[0]?.parts[0]?.layers[0]?.is;
    scene.later(20 * HOUR).act("pack", { trayId: "t2", acceptRisk: true });
    expect(laid()).toBe("on the board");
    const tray = { id: "t9", number: 7, designId: "moon", orderId: "walk", count: 10, placeId: "rack-a" };
    scene.as("ida", "lead").act("add-trays", { trays: [tray] });
    expect(laid()).toBe("packed");
  });

  it("a layer taken back is no longer one of its batch", () => {
    const scene = aKitchen();
    mixed(scene, "b1");
    const actId = scene.act("flooded", { trayId: "t2" });
    scene.act("take-back", { trayId: "t2", actId });
    expect(ordersFrom(scene.kitchen, "b1")).toEqual([]);
  });
});

describe("K68 an order tells its own allergen words, its batches', and for how many layers none is known; never that none is in it", () => {
  const of = (scene: Scene, orderId = "walk") => orderBatches(scene.kitchen, scene.kitchen.orders[orderId]!);

  it("before anything is laid there is nothing to tell", () => {
    expect(of(aKitchen())).toEqual({
      told: [],
      untold: [],
      wrong: [],
      layersLaid: 0,
      layersUnknown: 0,
      // One Lantern of four layers, two Moons of one.
      layersToLay: 6,
      cookiesGiven: 0,
    });
  });

  it("words of batches stand once, with the batches that bear them; a batch without words is told apart", () => {
    const scene = aKitchen().as("ida", "lead");
    const { archived: _, ...order } = scene.kitchen.orders["walk"]!;
    scene.act("put-order", { order: { ...order, allergens: "wheat" } });
    scene.as("wren");
    mixed(scene, "b1", { allergens: "egg, milk" });
    scene.act("flooded", { trayId: "t2" });
    scene.act("finish-batch", { batchId: "b1" });
    scene.later(MIN);
    mixed(scene, "b2", { allergens: "egg, milk" });
    scene.act("flooded", { trayId: "t3" });
    mixed(scene, "b3", {}, "lantern");
    scene.act("flooded", { trayId: "t1" });
    scene.later(MIN).act("flooded", { trayId: "t1" });
    const told = of(scene);
    expect(told.own).toBe("wheat");
    expect(told.told.map(({ allergens, batches }) => [allergens, batches.map(({ id }) => id)])).toEqual([
      ["egg, milk", ["b1", "b2"]],
    ]);
    expect(told.untold.map(({ id }) => id)).toEqual(["b3"]);
    expect(told).toMatchObject({ layersLaid: 4, layersUnknown: 1, layersToLay: 2, wrong: [] });
  });

  it("a batch found wrong is told with its trays, and no longer once that is taken back", () => {
    const scene = aKitchen();
    mixed(scene, "b1");
    for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
    scene.act("judge-batch", { batchId: "b1", wrong: "Sugar not sieved" });
    expect(of(scene).wrong).toMatchObject([
      { batch: { id: "b1", wrong: { why: "Sugar not sieved" } }, trays: [7, 8] },
    ]);
    scene.act("judge-batch", { batchId: "b1", wrong: null });
    expect(of(scene).wrong).toEqual([]);
  });

  it("layers of archived trays count, with their batches and without", () => {
    const scene = aKitchen();
    mixed(scene, "b1", { allergens: "egg" });
    scene.act("flooded", { trayId: "t2" });
    scene.act("finish-batch", { batchId: "b1" });
    scene.later(2 * HOUR).act("flooded", { trayId: "t3" });
    scene.later(20 * HOUR);
    for (const trayId of ["t2", "t3"]) scene.act("pack", { trayId, acceptRisk: true });
    archive(scene);
    expect(Object.keys(scene.kitchen.trays)).toEqual(["t1"]);
    expect(of(scene)).toMatchObject({
      told: [{ allergens: "egg", batches: [{ id: "b1" }] }],
      layersLaid: 2,
      layersUnknown: 1,
      layersToLay: 4,
    });
    // Where a batch is not kept any more its layers are unknown again.
    const forgotten = { ...scene.kitchen, usedBatches: {} };
    expect(batchOf(forgotten, "b1")).toBeUndefined();
    expect(orderBatches(forgotten, forgotten.orders["walk"]!)).toMatchObject({ told: [], layersUnknown: 2 });
  });
});
