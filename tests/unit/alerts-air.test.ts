import { TOO_DAMP } from "#tests/support/too-damp.ts";
import { said } from "#tests/support/alert-words.ts";
import { describe, expect, it } from "vitest";
import type { AirChange, PlaceForecast } from "#shared/kitchen/model/forecast.ts";
import { dueNow, dueOf, tend, tendThrough } from "../support/alerting.ts";
import { aKitchen, HOUR, MIN, type Scene, T0 } from "../support/scene.ts";

const rackAir = (scene: Scene, rhPct: number): Scene => {
  const place: PlaceForecast = {
    placeId: "rack-a",
    air: { tempC: 22, rhPct, atMs: scene.nowMs, ageMin: 0 },
    basis: "measured",
    films: [],
  };
  scene.forecasts = { ...scene.forecasts, places: { "rack-a": place } };
  return scene;
};

describe("will not dry here", () => {
  function damp(): Scene {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.act("flooded", { trayId: "t3" });
    scene.forecast("t2", 0, { dryThrough: { never: TOO_DAMP } });
    scene.forecast("t3", 0, { dryThrough: { never: TOO_DAMP } });
    return rackAir(scene, 88);
  }

  it("is one prompt a place to leads and wall, with the trays that stand there", () => {
    const scene = damp();
    const [alert, ...more] = dueOf(scene, "will-not-dry-here");
    expect(more).toEqual([]);
    expect(alert).toMatchObject({
      class: "prompt",
      placeId: "rack-a",
      recipients: { leads: true, wall: true },
    });
    expect(said(scene.kitchen, alert)).toContain("Rack A: Too damp");
    expect(said(scene.kitchen, alert)).toContain("Move trays 7 and 8");
  });

  it("A29 names the tray that is damp now, once another has been moved away", () => {
    const scene = damp();
    scene.forecast("t3", 0, {});
    const key = tend(scene).raised.find((one) => one.startsWith("will-not-dry")) ?? "";
    expect(scene.kitchen.alerts[key]).toMatchObject({ trays: [7] });
    scene.act("acknowledge-alert", { key });
    scene.act("move-tray", { trayId: "t2", placeId: "fan" });
    scene.forecast("t3", 0, { dryThrough: { never: TOO_DAMP } });
    const { raised, cleared } = tend(scene);
    expect([...raised, ...cleared].filter((one) => one.startsWith("will-not-dry-here:rack-a"))).toEqual([]);
    expect(scene.kitchen.alerts[key]).toMatchObject({ trays: [8] });
    expect(scene.kitchen.alerts[key]).not.toHaveProperty("acknowledged");
    // Nothing has changed: nothing is logged.
    const changes = (): number => scene.events.filter(({ type }) => type === "alert-changed").length;
    const before = changes();
    for (let k = 0; k < 240; k += 1) tend(scene.later(15_000));
    expect(changes()).toBe(before);
  });

  it("trays a finger found firm, or moved away, no longer count", () => {
    const scene = damp();
    scene.later(HOUR).act("touch-test", { trayId: "t2", finding: "firm" });
    scene.act("move-tray", { trayId: "t3", placeId: "cabinet" });
    scene.forecast("t3", 0, {});
    expect(dueOf(scene, "will-not-dry-here")).toEqual([]);
  });

  it("A21 air about the limit does not make it flap: it stays until 83 %", () => {
    const scene = damp();
    const [raised] = tend(scene).raised;
    for (let k = 0; k < 6; k += 1) {
      const dry = k % 2 === 0;
      for (const trayId of ["t2", "t3"])
        scene.forecast(trayId, 0, dry ? {} : { dryThrough: { never: TOO_DAMP } });
      expect(tend(rackAir(scene.later(MIN), dry ? 84 : 86))).toEqual({ raised: [], cleared: [] });
    }
    for (const trayId of ["t2", "t3"]) scene.forecast(trayId, 0, {});
    expect(tend(rackAir(scene, 83)).cleared).toEqual([raised]);
  });
});

describe("the air changed", () => {
  const change: AirChange = {
    atMs: T0,
    sinceMs: T0 - HOUR,
    placeId: "rack-a",
    rhPctBy: 9.2,
    later: 11,
    sooner: 0,
  };

  it("is a note for the wall alone, as long as the forecaster says so, once", () => {
    const scene = aKitchen();
    scene.forecasts = { ...scene.forecasts, change };
    expect(dueNow(scene)).toMatchObject([
      { kind: "air-changed", class: "note", recipients: { wall: true, leads: false } },
    ]);
    expect(dueNow(scene)[0]).toMatchObject({
      rhPctBy: 9,
      later: 11,
      sooner: 0,
    });
    const [raised] = tend(scene).raised;
    scene.forecasts = { ...scene.forecasts, change: { ...change, rhPctBy: -2.4 } };
    expect(said(scene.kitchen, dueNow(scene)[0])).toMatch(/^Rack A: The air has changed/);
    scene.forecasts = {
      ...scene.forecasts,
      change: { ...change, later: 14, rhPctBy: 10, sinceMs: T0 - 2 * HOUR },
    };
    expect(tend(scene)).toEqual({ raised: [], cleared: [] });
    const { change: _, ...rest } = scene.forecasts;
    scene.forecasts = rest;
    expect(tend(scene).cleared).toEqual([raised]);
  });
});

describe("a sensor silent", () => {
  const read = (scene: Scene, source: string): void => {
    scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct: 50, source } });
  };

  it("is a note for the wall after half an hour, until it speaks again", () => {
    const scene = aKitchen();
    read(scene, "sensor");
    expect(dueNow(scene.later(30 * MIN))).toEqual([]);
    expect(dueNow(scene.later(1))).toMatchObject([
      {
        kind: "sensor-silent",
        class: "note",
        placeId: "rack-a",
        recipients: { wall: true, leads: false, everyone: false },
      },
    ]);
    expect(tendThrough(scene, 3 * HOUR, 5 * MIN)).toHaveLength(1);
    read(scene, "sensor");
    expect(dueNow(scene)).toEqual([]);
  });

  it("typed readings are not expected to keep coming", () => {
    const scene = aKitchen();
    read(scene, "typed");
    expect(dueNow(scene.later(5 * HOUR))).toEqual([]);
  });

  it("after a day it has been taken away", () => {
    const scene = aKitchen();
    read(scene, "sensor");
    expect(dueNow(scene.later(24 * HOUR))).toHaveLength(1);
    expect(dueNow(scene.later(1))).toEqual([]);
  });
});
