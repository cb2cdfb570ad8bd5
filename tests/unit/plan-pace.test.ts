import { expect, it } from "vitest";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { layingSamples, paceOf } from "#shared/kitchen/plan/pace.ts";
import { aKitchen, HOUR, MIN, type Scene } from "../support/scene.ts";
import { HOT_AIR } from "../support/furnishings.ts";

/** Ten cookies of the Moon, laid in so many minutes from "start". */
function laid(scene: Scene, trayId: string, min: number): void {
  scene.act("start-flooding", { trayId });
  scene.later(min * MIN).act("flooded", { trayId });
}

it("K52 before any tray was timed it is the kitchen's setting, for a tray that holds as many as most", () => {
  const { minACookie, samples } = paceOf(aKitchen().kitchen);
  // Ten minutes; trays of 10, 10 and 12.
  expect(minACookie).toEqual({ outline: 1, "top-coat": 1, flood: 1, detail: 1 });
  expect(samples).toBe(0);
});

it("K52 trays timed move it, more the more there are, and a consistency's own trays move that most", () => {
  const scene = aKitchen();
  laid(scene, "t2", 20);
  const one = paceOf(scene.kitchen);
  laid(scene, "t3", 20);
  const two = paceOf(scene.kitchen);
  expect(one.minACookie["top-coat"]).toBeGreaterThan(one.minACookie.flood);
  expect(one.minACookie.flood).toBeGreaterThan(1);
  expect(two.minACookie["top-coat"]).toBeGreaterThan(one.minACookie["top-coat"]);
  expect(two.minACookie["top-coat"]).toBeLessThan(2);
  expect(two.meanSd).toBeLessThan(one.meanSd);
  // Two of (4 + 2) trays for the kitchen, and as much again for the top-coat's own: ln 2 · (1/3 + (2/3)(1/3)).
  expect(Math.log(two.minACookie["top-coat"])).toBeCloseTo(Math.LN2 * (1 / 3 + 2 / 9), 10);
});

it("K52 minutes under heat are not laying, and a silly span teaches nothing", () => {
  const scene = aKitchen();
  scene.act("start-flooding", { trayId: "t2" });
  scene.later(5 * MIN).act("start-heat-set", { trayId: "t2", toolId: HOT_AIR.id });
  scene.later(30 * MIN).act("end-heat-set", { trayId: "t2", result: "set" });
  scene.later(5 * MIN).act("flooded", { trayId: "t2" });
  expect(layingSamples(scene.kitchen)).toMatchObject([{ consistency: "top-coat", minACookie: 1 }]);
  const before = paceOf(scene.kitchen);
  laid(scene, "t3", 9 * 60);
  expect(paceOf(scene.kitchen)).toEqual(before);
});

it("K52 what is laid while the hot air waits for the next cookie is laying", () => {
  const scene = aKitchen();
  const trayId = "t2";
  scene.act("start-flooding", { trayId });
  // Each of ten cookies is laid for a minute, then has two of heat.
  scene.later(MIN).act("start-heat-set", { trayId, toolId: HOT_AIR.id });
  for (let cookie = 2; cookie <= 10; cookie += 1) {
    scene.later(2 * MIN).act("next-cookie", { trayId });
    scene.later(MIN).act("heat-on", { trayId });
  }
  scene.later(2 * MIN).act("end-heat-set", { trayId, result: "set" });
  scene.act("flooded", { trayId });
  expect(layingSamples(scene.kitchen)).toMatchObject([{ consistency: "top-coat", minACookie: 1 }]);
});

it("K52 a layer laid with a single tap was not timed; one taken back is forgotten", () => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t2" });
  expect(layingSamples(scene.kitchen)).toEqual([]);
  scene.act("start-flooding", { trayId: "t3" });
  const actId = scene.later(20 * MIN).act("flooded", { trayId: "t3" });
  expect(layingSamples(scene.kitchen)).toHaveLength(1);
  scene.act("take-back", { trayId: "t3", actId });
  expect(layingSamples(scene.kitchen)).toEqual([]);
});

it("K52 it is kept when trays are put away, and reading the log again gives the same", () => {
  const scene = aKitchen();
  laid(scene, "t2", 20);
  scene.later(30 * HOUR).act("pack", { trayId: "t2", acceptRisk: true });
  const before = layingSamples(scene.kitchen);
  scene.later(80 * HOUR).role = "kitchen";
  scene.act("archive", {});
  expect(scene.kitchen.trays["t2"]).toBeUndefined();
  expect(layingSamples(scene.kitchen)).toEqual(before);
  const replayed = scene.events.reduce(evolve, EMPTY_KITCHEN);
  expect(paceOf(replayed)).toEqual(paceOf(scene.kitchen));
});
