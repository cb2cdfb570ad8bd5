import { describe, expect, it } from "vitest";
import type { OrderForecast } from "#shared/kitchen/model/forecast.ts";
import { parse } from "#shared/fields.ts";
import { follow, Story } from "#phone/story/story.ts";
import { aKitchen, band, HOUR, id, type Scene, T0 } from "../support/scene.ts";

const facts = {
  orderId: id<never>("walk"),
  trayIds: [id<never>("t2"), id<never>("t3")],
  placeId: id<never>("rack-a"),
};
const heat = { trayId: id<never>("t2"), toolId: id<never>("hot-1") };

const told = (scene: Scene, story: Story): Story => follow(story, scene);

/** The plan's answer for the order: so many minutes before its pick-up, at the likeliest and at the latest. */
function plan(scene: Scene, spareMin: number, spareWorstMin: number): Scene {
  const walk: OrderForecast = { finish: band(T0 + 20 * HOUR), spareMin, spareWorstMin };
  scene.forecasts = { ...scene.forecasts, orders: { walk } };
  return scene;
}

describe("damp air", () => {
  it("C39 the story waits until the plan has the order late, and keeps how late", () => {
    const scene = aKitchen();
    const damp: Story = { is: "damp", ...facts };
    expect(told(scene, damp)).toEqual(damp);
    expect(told(plan(scene, 60, -30), damp)).toEqual(damp);
    expect(told(plan(scene, -90, -300), damp)).toEqual({
      is: "behind",
      ...facts,
      before: { leastMin: 90, mostMin: 300 },
    });
  });

  it("C39 icing that never dries there is behind too, and no minutes are made up for it", () => {
    const scene = aKitchen();
    const never = { never: { code: "no-drying", rhPct: 90, limitPct: 85 } } as const;
    scene.forecasts = { ...scene.forecasts, orders: { walk: { finish: never } } };
    expect(told(scene, { is: "damp", ...facts })).toEqual({ is: "behind", ...facts });
  });

  it("C39 trays that were moved are moved; back in time the order is by the plan's own answer only", () => {
    const scene = plan(aKitchen(), -90, -300);
    const behind = told(scene, { is: "damp", ...facts });
    const move = scene.act("move-tray", { trayId: "t2", placeId: "cabinet" });
    const moved = told(scene, behind);
    expect(moved).toEqual({ ...behind, is: "moved" });
    expect(told(scene, moved)).toEqual(moved);

    const back = told(plan(scene, 200, 80), moved);
    expect(back).toEqual({ ...behind, is: "back" });
    // The move taken back, and the plan with it.
    scene.act("take-back", { trayId: "t2", actId: move });
    expect(told(plan(scene, -90, -300), back).is).toBe("behind");
  });

  it("C39 an order that the plan has no answer for any more leaves the story where it was", () => {
    const scene = aKitchen();
    const back: Story = { is: "back", ...facts };
    expect(told(scene, back)).toEqual(back);
  });
});

describe("heat that runs long", () => {
  const isLong = (scene: Scene, story: Story): boolean => told(scene, story).is === "long";

  it("C39 calls when the alert is raised, and is over when the heat is, whoever stops it", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    const begun: Story = { is: "heat", ...heat };
    expect(told(scene, begun)).toEqual(begun);
    scene.later(60_000).act("start-heat-set", heat);
    expect(told(scene, begun)).toEqual(begun);

    scene.later(HOUR).as("kitchen", "kitchen").act("reconcile-alerts", {});
    expect(isLong(scene, begun)).toBe(true);
    scene.as("sol").act("end-heat-set", { trayId: "t2", result: "not yet" });
    expect(told(scene, { is: "long", ...heat })).toEqual({ is: "stopped", ...heat });
  });
});

it("C40 what a phone kept of the story is read back, and anything else is not", () => {
  const kept = JSON.parse(JSON.stringify({ is: "behind", ...facts, before: { leastMin: 1, mostMin: 2 } }));
  expect(parse(Story, kept)).toEqual({ ok: true, value: kept });
  for (const other of [undefined, { is: "behind" }, { is: "won" }, "over"])
    expect(parse(Story, other).ok).toBe(false);
});
