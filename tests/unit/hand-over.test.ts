import { describe, expect, it } from "vitest";
import { handOver } from "#shared/kitchen/day-sheet/hand-over.ts";
import { aKitchen, band, HOUR, MIN, type Scene } from "../support/scene.ts";

const told = (scene: Scene) => handOver(scene.kitchen, scene.forecasts, scene.nowMs);

describe("K76 the hand-over tells what is wet and where, what is due next, which tools are on, and the note with who left it", () => {
  it("of a kitchen in which nothing was begun", () => {
    const { places, due, moreDue, orders, toolsOn, outOfService, ...rest } = told(aKitchen());
    expect(rest).toEqual({});
    expect([places, toolsOn, outOfService, moreDue]).toEqual([[], [], [], 0]);
    expect(due.map(({ tray, act }) => [tray, act.kind])).toEqual([
      [7, "flood"],
      [8, "flood"],
      [18, "flood"],
    ]);
    expect(orders.map(({ id }) => id)).toEqual(["walk"]);
  });

  it("a film is wet until a finger or its latest time says otherwise", () => {
    const scene = aKitchen();
    for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
    const surfaces = () => told(scene).places.flatMap(({ by }) => by);
    // No forecast is no reason to trust it.
    expect(surfaces()).toEqual([{ surface: "wet", trays: [7, 8] }]);
    scene.forecast("t2", 0, { skin: band(scene.nowMs + HOUR) });
    scene.forecast("t3", 0, { skin: band(scene.nowMs + HOUR) });
    scene.later(65 * MIN);
    expect(surfaces()).toEqual([{ surface: "wet", trays: [7, 8] }]);
    scene.act("touch-test", { trayId: "t2", layer: 0, finding: "skinned" });
    expect(surfaces()).toEqual([
      { surface: "wet", trays: [8] },
      { surface: "skinned", trays: [7] },
    ]);
    scene.later(10 * MIN);
    expect(surfaces()).toEqual([{ surface: "skinned", trays: [7, 8] }]);
  });

  it("by place: what is in hand, under heat and wet", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t3" });
    scene.act("move-tray", { trayId: "t3", placeId: "fan" });
    scene.act("start-flooding", { trayId: "t1" });
    scene.act("flooded", { trayId: "t2" });
    scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    expect(told(scene).places).toEqual([
      { place: "Fan rack", by: [{ surface: "wet", trays: [8] }] },
      {
        place: "Rack A",
        by: [
          { surface: "in hand", trays: [18] },
          { surface: "under heat", trays: [7] },
        ],
      },
    ]);
    expect(told(scene).toolsOn.map(({ name }) => name)).toEqual(["Hot-air tool 1"]);
  });

  it("what is due goes by the plan, else by when it is likely ready; packed trays are done", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.act("flooded", { trayId: "t3" });
    const dryMs = scene.nowMs + 10 * HOUR;
    scene.forecast("t2", 0, { skin: band(scene.nowMs + HOUR), dryThrough: band(dryMs) });
    scene.forecasts = {
      ...scene.forecasts,
      trays: { t1: { finish: band(dryMs), plan: { act: "flood", layer: 0, startMs: dryMs - HOUR } } },
    };
    expect(told(scene).due.map(({ tray, atMs }) => [tray, atMs])).toEqual([
      [18, dryMs - HOUR],
      [7, dryMs],
      [8, undefined],
    ]);
    scene.later(20 * HOUR).act("pack", { trayId: "t2", acceptRisk: true });
    expect(told(scene).due.map(({ tray }) => tray)).toEqual([18, 8]);
  });

  it("long lists are cut, and the rest counted", () => {
    const scene = aKitchen().as("ida", "lead");
    const trays = Array.from({ length: 13 }, (_, k) => ({
      id: `n${k}`,
      number: 100 + k,
      designId: "moon",
      orderId: "walk",
      count: 1,
      placeId: "rack-a",
    }));
    scene.act("add-trays", { trays });
    const { due, moreDue } = told(scene);
    expect([due.length, moreDue]).toEqual([12, 4]);
  });

  it("the note, until it is dealt with; a tool that is out of service", () => {
    const scene = aKitchen();
    scene.act("leave-note", { text: "Rack B is for tomorrow" });
    scene.act("tool-out-of-service", { toolId: "hot-1", reason: "cable" });
    expect(told(scene)).toMatchObject({
      note: { text: "Rack B is for tomorrow", by: "wren", atMs: scene.nowMs },
      outOfService: [{ id: "hot-1" }],
    });
    scene.act("leave-note", { text: null });
    expect(told(scene)).not.toHaveProperty("note");
  });
});
