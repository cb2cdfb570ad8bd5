import { said, wordsOf } from "#tests/support/alert-words.ts";
import { describe, expect, it } from "vitest";
import { offlineAlerts } from "#shared/kitchen/alerts/offline.ts";
import type { PersonId } from "#shared/ids.ts";
import { toolsLine } from "#display/model/tools-line.ts";
import { tend } from "../support/alerting.ts";
import { aKitchen, HOUR, id, MIN, type Scene } from "../support/scene.ts";

const underHotAir = (): Scene => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t2" });
  scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
  return scene;
};

describe("heat tools on the wall", () => {
  it("H38 a tool that is on is named with its holder, then how long it stays hot, then not at all", () => {
    const scene = underHotAir();
    expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs)).toEqual({
      text: "Hot-air tool 1 on under 1 min, Wren",
    });
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    scene.act("tool-off", { toolId: "hot-1" });
    expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs).text).toBe(
      "Hot-air tool 1 hot until about 09:11",
    );
    expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs + 10 * MIN)).toEqual({});
  });

  it("H40 once the kitchen has closed, a tool not confirmed off stays on the wall until someone says so", () => {
    const scene = underHotAir();
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    scene.later(11 * HOUR);
    // The top of the wall has room for two or three names: the line has them all.
    expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs)).toEqual({
      unconfirmed: "Hot-air tool 1 (Wren)",
      text: "Hot-air tool 1 on 11 h, Wren",
    });
    expect(
      toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs + 6 * HOUR).unconfirmed,
    ).toBeDefined();
    scene.act("tool-off", { toolId: "hot-1" });
    expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs).unconfirmed).toBeUndefined();
  });

  it("H3 H40 after closing a hot tray and a cooling tool are named beside what is not confirmed off", () => {
    const scene = underHotAir();
    scene.later(10 * HOUR).act("flooded", { trayId: "t3" });
    scene.act("end-heat-set", { trayId: "t2", result: "set" });
    scene.later(50 * MIN).act("start-heat-set", { trayId: "t3", toolId: "oven-1" });
    scene.later(9 * MIN).act("end-heat-set", { trayId: "t3", result: "set" });
    scene.act("tool-off", { toolId: "oven-1" });
    const line = toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.later(2 * MIN).nowMs);
    expect(line.unconfirmed).toBe("Hot-air tool 1 (Wren)");
    expect(line.text).toMatch(
      /^Hot-air tool 1 on 11 h, Wren · Hot, dry mitts: 8 until about 20:\d\d · Low oven hot until about 20:29$/,
    );
  });
});

it("H3 H38 a tray out of the oven is named on the wall until it may be touched", () => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t1" });
  scene.act("start-heat-set", { trayId: "t1", toolId: "oven-1" });
  scene.later(3 * MIN).act("end-heat-set", { trayId: "t1", result: "set" });
  expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs).text).toMatch(
    /^Low oven on 3 min, Wren · Hot, dry mitts: 18 until about 09:0\d$/,
  );
  expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.tray().hotUntilMs ?? 0).text).toMatch(
    /^Low oven on \d min, Wren$/,
  );
});

describe("a phone that hears nothing from the server", () => {
  const WREN = id<PersonId>("wren");
  const shown = (scene: Scene, afterMs: number, who = WREN) =>
    offlineAlerts(scene.kitchen, who, scene.nowMs + afterMs);

  it("A22 warns its holder of heat near and past its stop-by by itself, and says that the room is not told", () => {
    const scene = underHotAir();
    expect(shown(scene, 1000)).toEqual([]);
    expect(shown(scene, 2.5 * MIN)).toMatchObject([{ kind: "heat-near-stop", class: "prompt" }]);
    const [alert] = shown(scene, 4 * MIN);
    expect(alert).toMatchObject({ kind: "heat-running-long", class: "urgent", trayNumber: 7 });
    expect(said(scene.kitchen, alert)).toContain(
      "No connection: the room is not alerted. Take the heat off, look for cracks",
    );
  });

  it("A22 of what the server had raised before it fell silent nothing is told twice, nor once the cookie is changed", () => {
    const scene = underHotAir().later(3 * MIN);
    tend(scene);
    expect(shown(scene, 1000)).toEqual(Object.values(scene.kitchen.alerts));
    scene.nextCookie("t2");
    expect(shown(scene, 1000)).toEqual([]);
    expect(shown(scene, 4 * MIN)).toMatchObject([{ class: "urgent" }]);
    scene.later(2000).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(shown(scene, 4 * MIN)).toEqual([]);
  });

  it("A22 cries nothing of others' heat, which may long have ended", () => {
    expect(shown(underHotAir(), 4 * MIN, id("sol"))).toEqual([]);
  });
});

it("H39 what is on is named first, the hottest before the rest, then hot trays, then what cools", () => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t1" });
  scene.act("start-heat-set", { trayId: "t1", toolId: "oven-1" });
  scene.later(3 * MIN).act("end-heat-set", { trayId: "t1", result: "set" });
  scene.act("tool-off", { toolId: "oven-1" });
  scene.act("tool-on", { toolId: "hot-1" });
  expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs).text).toMatch(
    /^Hot-air tool 1 on under 1 min, Wren · Hot, dry mitts: 18 until about \d\d:\d\d · Low oven hot until/,
  );
});

it("H3 three hot trays or more are named together, with the moment of the last", () => {
  const scene = aKitchen();
  const untilMs = ["t1", "t2", "t3"].map((trayId) => {
    scene.later(MIN).act("flooded", { trayId });
    scene.act("start-heat-set", { trayId, toolId: "oven-1" });
    scene.later(MIN).act("end-heat-set", { trayId, result: "set" });
    return scene.tray(trayId).hotUntilMs ?? 0;
  });
  const last = wordsOf(scene.kitchen).format.time(Math.max(...untilMs));
  expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs).text).toMatch(
    new RegExp(`^Low oven on .*, Wren · Hot, dry mitts: 7–8, 18, the last until about ${last}$`),
  );
});
