import { expect, it } from "vitest";
import { nextLayerOf } from "#shared/kitchen/plan/next-layer.ts";
import { aKitchen } from "../support/scene.ts";
import { surely } from "../support/plan-of.ts";

it("I3 I6 a small section next is told how soon to heat-set, and how many to flood before that", () => {
  const scene = aKitchen();
  const sink = () =>
    nextLayerOf(scene.kitchen, scene.tray("t1"), () => ({ skin: surely(20), dryThrough: surely(200) }))?.sink;
  scene.act("flooded", { trayId: "t1" });
  scene.act("flooded", { trayId: "t1" });
  // Border: 9 mm, so most sink; 0.3 of 20 min is 6 min; 12 cookies in 10 min and 2 min of heat each are 2 in 6 min.
  // An oven sets all at once, so only flooding, 50 s a cookie, uses up the 6 min: 7.
  expect(sink()).toEqual({ risk: "most", setWithinMin: 6, floodBeforeSetting: 2, floodBeforeOven: 7 });
  scene.act("tool-out-of-service", { toolId: "hot-1", reason: "frayed cord" });
  expect(sink()).toEqual({ risk: "most", setWithinMin: 6, floodBeforeSetting: 7 });
});
