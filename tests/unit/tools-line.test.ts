import { describe, expect, it } from "vitest";
import { heatAlone } from "#shared/kitchen/alerts/alone.ts";
import { toolsLine } from "#shared/kitchen/tools-line.ts";
import { aKitchen, HOUR, MIN, type Scene } from "../support/scene.ts";

const underHotAir = (): Scene => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t2" });
  scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
  return scene;
};

describe("heat tools on the wall", () => {
  it("H16 a tool that is on is named with its holder, then how long it stays hot, then not at all", () => {
    const scene = underHotAir();
    expect(toolsLine(scene.kitchen, scene.nowMs)).toEqual({
      text: "Hot-air tool 1 on, Wren",
      isUnconfirmed: false,
    });
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    scene.act("tool-off", { toolId: "hot-1" });
    expect(toolsLine(scene.kitchen, scene.nowMs)?.text).toBe("Hot-air tool 1 hot until about 09:11");
    expect(toolsLine(scene.kitchen, scene.nowMs + 10 * MIN)).toBeUndefined();
  });

  it("H16 once the kitchen has closed, a tool not confirmed off stays on the wall until someone says so", () => {
    const scene = underHotAir();
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    scene.later(11 * HOUR);
    expect(toolsLine(scene.kitchen, scene.nowMs)).toEqual({
      text: "Hot-air tool 1 (Wren)",
      isUnconfirmed: true,
    });
    expect(toolsLine(scene.kitchen, scene.nowMs + 6 * HOUR)?.isUnconfirmed).toBe(true);
    scene.act("tool-off", { toolId: "hot-1" });
    expect(toolsLine(scene.kitchen, scene.nowMs)?.isUnconfirmed).toBe(false);
  });
});

it("H2 H16 a tray out of the oven is named on the wall until it may be touched", () => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t1" });
  scene.act("start-heat-set", { trayId: "t1", toolId: "oven-1" });
  scene.later(3 * MIN).act("end-heat-set", { trayId: "t1", result: "set" });
  expect(toolsLine(scene.kitchen, scene.nowMs)?.text).toMatch(
    /^Hot, dry mitts: 18 until about 09:0\d · Low oven on, Wren$/,
  );
  expect(toolsLine(scene.kitchen, scene.tray().hotUntilMs ?? 0)?.text).toBe("Low oven on, Wren");
});

describe("a phone that hears nothing from the server", () => {
  it("A11 warns of a heat-set past its stop-by by itself, and says that the room is not told", () => {
    const scene = underHotAir();
    expect(heatAlone(scene.kitchen, scene.nowMs + 1000)).toEqual([]);
    const [alert] = heatAlone(scene.kitchen, scene.nowMs + 4 * MIN);
    expect(alert).toMatchObject({ kind: "heat-running-long", class: "urgent", trayNumber: 7 });
    expect(alert?.todo).toMatch(/^No connection: the room is not told/);
  });

  it("A11 adds nothing to what the server had raised before it fell silent", () => {
    const scene = underHotAir();
    scene.later(4 * MIN);
    Object.assign(scene, { by: "kitchen", role: "kitchen" });
    scene.act("tend-alerts", {});
    expect(heatAlone(scene.kitchen, scene.nowMs)).toEqual([]);
  });
});
