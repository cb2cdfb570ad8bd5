import { TOO_DAMP } from "#tests/support/too-damp.ts";
import { describe, expect, it } from "vitest";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { dueNow, dueOf, tend, tendThrough } from "../support/alerting.ts";
import { aKitchen, band, HOUR, MIN, type Scene } from "../support/scene.ts";

/** t2 (a top-coat, nothing that sinks) flooded by Wren, its skin 10 min off at the earliest. */
function floodedMoon(): Scene {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t2" });
  return scene.forecast("t2", 0, { skin: band(scene.nowMs + 20 * MIN) });
}

/** t1's border, 9 mm across, flooded just now; skin likely in 20 min, so it is to be set within 6. */
function floodedBorder(): Scene {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t1" });
  scene.act("flooded", { trayId: "t1" });
  scene.later(HOUR);
  scene.act("touch-test", { trayId: "t1", layer: 0, finding: "skinned" });
  scene.act("touch-test", { trayId: "t1", layer: 1, finding: "skinned" });
  scene.act("flooded", { trayId: "t1" });
  return scene.forecast("t1", 2, { skin: band(scene.nowMs + 20 * MIN) });
}

describe("bubbles: last chance", () => {
  it("A16 warns whoever flooded it, two minutes before the skin's earliest time, until that passes", () => {
    const scene = floodedMoon();
    expect(dueNow(scene.later(8 * MIN - 1))).toEqual([]);
    expect(dueNow(scene.later(1))).toMatchObject([
      {
        kind: "bubbles-last-chance",
        class: "prompt",
        trayNumber: 7,
        recipients: { people: ["wren"], wall: false, leads: false },
      },
    ]);
    expect(dueNow(scene.later(2 * MIN))).toHaveLength(1);
    expect(dueNow(scene.later(1))).toEqual([]);
  });

  it.each(["in hand", "laid"] as const)(
    "A1 A21 of a film %s it does not clear and come back across a restart, before there are forecasts again",
    (which) => {
      const scene = aKitchen();
      scene.act(which === "laid" ? "flooded" : "start-flooding", { trayId: "t2" });
      scene.forecast("t2", 0, { skin: band(scene.nowMs + 20 * MIN) });
      expect(tend(scene.later(8 * MIN)).raised).toHaveLength(1);
      const { forecasts } = scene;
      scene.forecasts = NO_FORECASTS;
      expect(tend(scene.later(1000))).toEqual({ raised: [], cleared: [] });
      scene.forecasts = forecasts;
      expect(tend(scene.later(1000))).toEqual({ raised: [], cleared: [] });
    },
  );

  it("A1 A16 once for each film", () => {
    expect(tendThrough(floodedMoon(), HOUR, 15_000)).toHaveLength(1);
  });

  it("A21 a reading that moves the skin a little later does not take the prompt back", () => {
    const scene = floodedMoon().later(8 * MIN);
    expect(tend(scene).raised).toHaveLength(1);
    scene.forecast("t2", 0, { skin: band(scene.nowMs + 13 * MIN) });
    expect(tend(scene)).toEqual({ raised: [], cleared: [] });
  });

  it("A1 A21 an earliest time that passes, and is then worked out again to be later, does not bring the prompt again", () => {
    const scene = floodedMoon();
    const likelyMs = scene.nowMs + 20 * MIN;
    expect(tend(scene.later(8 * MIN)).raised).toHaveLength(1);
    expect(tend(scene.later(3 * MIN))).toEqual({ raised: [], cleared: [] });
    // The air until now is known by now, so the earliest time has drawn nearer to the likeliest.
    scene.forecast("t2", 0, { skin: band(likelyMs, 7 * MIN) });
    expect(tend(scene.later(MIN))).toEqual({ raised: [], cleared: [] });
    expect(tend(scene.later(8 * MIN + 1)).cleared).toHaveLength(1);
  });

  it("A16 a touch, a heat-set or taking the flooding back ends it", () => {
    const touched = floodedMoon().later(9 * MIN);
    touched.act("touch-test", { trayId: "t2", finding: "still wet" });
    expect(dueNow(touched)).toEqual([]);
    const heated = floodedMoon().later(9 * MIN);
    heated.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    expect(dueNow(heated)).toEqual([]);
    const undone = floodedMoon().later(9 * MIN);
    undone.act("take-back", { trayId: "t2", actId: undone.tray("t2").films[0]!.actId });
    expect(dueNow(undone)).toEqual([]);
  });

  it("piped layers have no bubbles to needle, and a skin within four minutes leaves no time to be told", () => {
    const outline = aKitchen();
    outline.act("flooded", { trayId: "t1" });
    outline.forecast("t1", 0, { skin: band(outline.nowMs + 20 * MIN) });
    expect(tendThrough(outline, HOUR, 15_000)).toEqual([]);
    const fast = aKitchen();
    fast.act("flooded", { trayId: "t2" });
    fast.forecast("t2", 0, { skin: band(fast.nowMs + 4 * MIN, MIN) });
    expect(tendThrough(fast, HOUR, 15_000)).toEqual([]);
  });

  it("a film with no forecast, or one that never skins, asks nothing", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    expect(dueNow(scene)).toEqual([]);
    scene.forecast("t2", 0, { skin: { never: TOO_DAMP } });
    expect(dueOf(scene, "bubbles-last-chance")).toEqual([]);
  });

  it("two people are told of their own trays", () => {
    const scene = floodedMoon().as("sol");
    scene.act("flooded", { trayId: "t3" });
    scene.forecast("t3", 0, { skin: band(scene.nowMs + 20 * MIN) });
    scene.later(9 * MIN);
    expect(dueOf(scene, "bubbles-last-chance").map(({ recipients }) => recipients.people)).toEqual([
      ["wren"],
      ["sol"],
    ]);
  });

  it("A16 while flooding goes on its first cookies are the ones to save, and the film is not told of again", () => {
    const scene = aKitchen();
    scene.act("start-flooding", { trayId: "t2" });
    const started = scene.nowMs;
    scene.forecast("t2", 0, { skin: band(started + 20 * MIN) });
    expect(dueNow(scene.later(8 * MIN))).toMatchObject([
      { kind: "bubbles-last-chance", recipients: { people: ["wren"] } },
    ]);
    scene.later(MIN).act("flooded", { trayId: "t2" });
    scene.forecast("t2", 0, { skin: band(scene.nowMs + 20 * MIN) });
    expect(tendThrough(scene, HOUR, 15_000)).toEqual([]);
  });

  it("A16 a short flooding leaves the prompt to the film", () => {
    const scene = aKitchen();
    scene.act("start-flooding", { trayId: "t2" });
    scene.later(5 * MIN).act("flooded", { trayId: "t2" });
    scene.forecast("t2", 0, { skin: band(scene.nowMs + 20 * MIN) });
    expect(tendThrough(scene, HOUR, 15_000)).toHaveLength(1);
  });
});

describe("will sink", () => {
  it("A16 I3 warns whoever flooded a small section two minutes before its minutes are over", () => {
    const scene = floodedBorder();
    expect(dueOf(scene.later(4 * MIN - 1), "will-sink")).toEqual([]);
    expect(dueOf(scene.later(1), "will-sink")).toMatchObject([
      { class: "prompt", trayNumber: 18, recipients: { people: ["wren"], wall: false } },
    ]);
  });

  it("A16 a heat-set begun in time means no warning; the skin's earliest time ends one", () => {
    const heated = floodedBorder().later(MIN);
    heated.act("start-heat-set", { trayId: "t1", toolId: "hot-1" });
    heated.later(MIN).act("end-heat-set", { trayId: "t1", result: "not yet" });
    heated.forecast("t1", 2, { skin: band(heated.nowMs + 18 * MIN) });
    expect(dueOf(heated.later(4 * MIN), "will-sink")).toEqual([]);
    const left = floodedBorder().later(10 * MIN);
    expect(dueOf(left, "will-sink")).toHaveLength(1);
    expect(dueOf(left.later(1), "will-sink")).toEqual([]);
  });

  it("I3 a wide section, a piped line, a tray in the warm cabinet, or a kitchen with no heat asks nothing", () => {
    expect(dueOf(floodedMoon().later(8 * MIN), "will-sink")).toEqual([]);
    const warm = floodedBorder();
    warm.act("move-tray", { trayId: "t1", placeId: "cabinet" });
    expect(dueOf(warm.later(5 * MIN), "will-sink")).toEqual([]);
    const bare = floodedBorder();
    bare.kitchen = { ...bare.kitchen, tools: {} };
    expect(dueOf(bare.later(5 * MIN), "will-sink")).toEqual([]);
  });

  it("A1 once for each film", () => {
    const raised = tendThrough(floodedBorder(), HOUR, 15_000);
    expect(raised.filter((key) => key.startsWith("will-sink"))).toHaveLength(1);
  });
});

it("A1 a restart, while forecasts are not there yet, neither clears an alert nor raises it twice", () => {
  const scene = floodedMoon().later(9 * MIN);
  expect(tend(scene).raised).toHaveLength(1);
  const known = scene.forecasts;
  scene.forecasts = { ...known, films: {} };
  expect(tend(scene.later(1000))).toEqual({ raised: [], cleared: [] });
  scene.forecasts = known;
  expect(tend(scene.later(1000))).toEqual({ raised: [], cleared: [] });
});
