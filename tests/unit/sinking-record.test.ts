import { describe, expect, it } from "vitest";
import { dryFilm } from "#shared/drying/film/film.ts";
import { airOfFilm, filmSpecOf } from "#shared/kitchen/forecast/air.ts";
import { firstSetByMs, setByMs, sinkingRecord } from "#shared/kitchen/tray/sinking.ts";
import { english } from "#shared/words/en/index.ts";
import { aKitchen, MIN, T0, type Scene } from "../support/scene.ts";

/** Trays t2 and t3 flooded, with a section that was told to be set within 6 minutes. */
function flooded(): Scene {
  const scene = aKitchen();
  const next = {
    layer: 0,
    skin: { earliestMs: 15 * MIN, likelyMs: 20 * MIN, latestMs: 30 * MIN },
    dryThrough: { earliestMs: 400 * MIN, likelyMs: 500 * MIN, latestMs: 700 * MIN },
    sink: { risk: "most" as const, setWithinMin: 6, floodBeforeSetting: 3 },
  };
  const finish = { earliestMs: T0, likelyMs: T0, latestMs: T0 };
  scene.forecasts = { ...scene.forecasts, trays: { t2: { finish, next }, t3: { finish, next } } };
  scene.act("flooded", { trayId: "t2" });
  scene.act("flooded", { trayId: "t3" });
  return scene;
}

describe("I12 small sections, what was told and what became of them", () => {
  it("I12 the minutes told when it was flooded are kept and counted down until heat or a finger", () => {
    const scene = flooded();
    expect(setByMs(scene.tray("t2"), scene.tray("t2").films[0]!)).toBe(T0 + 6 * MIN);
    scene.later(MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    expect(setByMs(scene.tray("t2"), scene.tray("t2").films[0]!)).toBeUndefined();
  });

  it("I12 while a tray is being flooded its first cookie counts down, then the first since the last heat", () => {
    const scene = flooded();
    const told = () => firstSetByMs(scene.tray("t1"), 6);
    expect(told()).toBeUndefined();
    scene.act("start-flooding", { trayId: "t1" });
    expect(told()).toBe(T0 + 6 * MIN);
    scene.later(2 * MIN).act("start-heat-set", { trayId: "t1", toolId: "hot-1" });
    expect(told()).toBeUndefined();
    scene.later(MIN).act("end-heat-set", { trayId: "t1", result: "set" });
    expect(told()).toBe(T0 + 9 * MIN);
  });

  it("I12 set in time, late or not at all, and what sank, is counted", () => {
    const scene = flooded();
    scene.later(MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(sinkingRecord(scene.kitchen, scene.nowMs).films).toEqual({ "in time": 1, late: 0, "not set": 0 });
    scene.later(20 * MIN).act("report-problem", { trayId: "t3", problem: "sunk", count: 4 });
    expect(sinkingRecord(scene.kitchen, scene.nowMs)).toEqual({
      films: { "in time": 1, late: 0, "not set": 1 },
      sunk: { "in time": 0, late: 0, "not set": 1 },
    });
    expect(english("metric", "UTC").heat.sinking(sinkingRecord(scene.kitchen, scene.nowMs))).toBe(
      "Small sections on this board: 1 heat-set in time, 1 not heat-set (1 sunk).",
    );
    scene.act("start-heat-set", { trayId: "t3", toolId: "hot-1" });
    expect(sinkingRecord(scene.kitchen, scene.nowMs).films.late).toBe(1);
  });

  it("I12 heat while the rest is being flooded is in time by its first cookie's minutes", () => {
    for (const [waitedMin, films] of [
      [5, { "in time": 1, late: 0, "not set": 0 }],
      [20, { "in time": 0, late: 1, "not set": 0 }],
    ] as const) {
      const scene = aKitchen();
      const { forecasts } = flooded();
      scene.forecasts = { ...forecasts, trays: { t2: forecasts.trays["t2"]! } };
      scene.act("start-flooding", { trayId: "t2" });
      scene.later(waitedMin * MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
      scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
      scene.act("flooded", { trayId: "t2" });
      expect(sinkingRecord(scene.kitchen, scene.nowMs).films).toEqual(films);
    }
  });

  it("D8 a heat-set film is followed through the hot air: it skins and dries through sooner", () => {
    const scene = flooded();
    const timesOf = (trayId: string): [number, number] => {
      const tray = scene.tray(trayId);
      const spec = filmSpecOf(scene.kitchen, scene.kitchen.designs[tray.designId]!, 0);
      const { skin, dryThrough } = dryFilm(
        spec,
        airOfFilm(scene.kitchen, tray, tray.films[0]!, scene.nowMs).spells,
      );
      if ("never" in skin || "never" in dryThrough) throw new Error("never dries");
      return [skin.s, dryThrough.s];
    };
    const before = timesOf("t2");
    scene.heatAll("t2", 2 * MIN);
    const [skinS, dryS] = timesOf("t2");
    expect(skinS).toBeLessThan(before[0] / 2);
    expect(dryS).toBeLessThan(before[1]);
    expect(timesOf("t3")).toEqual(before);
    scene.act("tool-off", { toolId: "hot-1" });
    scene
      .later(10 * MIN)
      .as("ida", "lead")
      .act("remove-tool", { toolId: "hot-1" });
    expect(timesOf("t2")).toEqual([skinS, dryS]);
  });

  it("H28 heat for some of a tray's cookies says nothing of the others: neither its clock nor its skin is moved", () => {
    const scene = flooded();
    scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(2 * MIN).nextCookie("t2");
    scene.later(2 * MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(scene.tray("t2").films[0]?.findings).toEqual([]);
    const spells = (trayId: string) =>
      airOfFilm(scene.kitchen, scene.tray(trayId), scene.tray(trayId).films[0]!, scene.nowMs).spells;
    expect(spells("t2")).toEqual(spells("t3"));
    scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    for (let cookie = 3; cookie < scene.tray("t2").count; cookie += 1) scene.later(2 * MIN).nextCookie("t2");
    scene.later(2 * MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(scene.tray("t2").films[0]?.findings).toHaveLength(1);
    expect(spells("t2")).not.toEqual(spells("t3"));
  });
});
