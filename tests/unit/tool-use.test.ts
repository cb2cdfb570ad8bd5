import { wordsOf } from "#tests/support/alert-words.ts";
import { describe, expect, it } from "vitest";
import type { Decision } from "#shared/kitchen/commands/decide.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { heatHolder } from "#shared/kitchen/model/lookups.ts";
import type { ToolUse } from "#shared/kitchen/model/state.ts";
import { toolsLine } from "#display/model/tools-line.ts";
import { dueNow, dueOf } from "../support/alerting.ts";
import { aKitchen, MIN, type Scene, T0 } from "../support/scene.ts";

const HOT = { toolId: "hot-1" };
const OVEN = { toolId: "oven-1" };

/** t2 and t3 flooded an hour ago; minutes count from T0. */
function room(): Scene {
  const scene = aKitchen();
  scene.nowMs = T0 - 60 * MIN;
  for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
  scene.nowMs = T0;
  return scene;
}

/** The clock at so many minutes, and who taps. */
const at = (scene: Scene, min: number, who: string): Scene => {
  scene.nowMs = T0 + min * MIN;
  return who === "ida" ? scene.as("ida", "lead") : scene.as(who);
};

const heat = (scene: Scene, trayId: string, tool: { toolId: string }, min?: number): string =>
  scene.act("start-heat-set", { trayId, ...tool, ...ago(min) });
const end = (scene: Scene, trayId: string, min?: number): string =>
  scene.act("end-heat-set", { trayId, result: "set", ...ago(min) });
/** A tap that was made then and lands now. */
const ago = (min: number | undefined): { atMs?: number } =>
  min === undefined ? {} : { atMs: T0 + min * MIN };

const reasonOf = (decision: Decision): string => (decision.ok ? "taken" : decision.refusal.reason);

/** How a tool is used now; the same, to the last field, when the log is replayed. */
function useOf(scene: Scene, { toolId }: { toolId: string }): ToolUse | undefined {
  expect(scene.events.reduce(evolve, EMPTY_KITCHEN)).toEqual(scene.kitchen);
  return scene.kitchen.tools[toolId]?.use;
}

describe("taps that land after others' later ones", () => {
  it("H18 H20 A15 still in use, said before a later heat-set, does not make the tool idle sooner; off said then is not taken", () => {
    const scene = room();
    at(scene, 0, "wren").act("tool-on", HOT);
    heat(at(scene, 3, "sol"), "t3", HOT);
    end(at(scene, 5, "sol"), "t3");
    at(scene, 5 + 1 / 3, "wren").act("tool-still-in-use", { ...HOT, ...ago(0.5) });
    expect(useOf(scene, HOT)).toMatchObject({ holder: "sol", idleSinceMs: T0 + 5 * MIN });
    expect(dueNow(scene)).toEqual([]);
    expect(reasonOf(scene.ask("tool-off", { ...HOT, ...ago(1) }))).toBe("bad-time");
    scene.act("tool-off", HOT);
    expect(useOf(scene, HOT)).toEqual({ status: "off", offAtMs: scene.nowMs, by: "wren" });
  });

  it("H20 still in use, said under a heat-set, counts from then at the earliest once that ended before it", () => {
    const scene = room();
    heat(at(scene, 0, "wren"), "t2", HOT);
    at(scene, 4, "sol").act("tool-still-in-use", HOT);
    expect(useOf(scene, HOT)).not.toHaveProperty("idleSinceMs");
    end(at(scene, 5, "wren"), "t2", 1);
    expect(useOf(scene, HOT)).toMatchObject({ idleSinceMs: T0 + 4 * MIN });
  });

  it("H20 of two trays in an oven the one that came out later counts, whichever end lands first", () => {
    const scene = room();
    heat(at(scene, 0, "wren"), "t2", OVEN);
    heat(at(scene, 0, "sol"), "t3", OVEN);
    end(at(scene, 5, "sol"), "t3");
    end(at(scene, 5.5, "wren"), "t2", 1);
    expect(useOf(scene, OVEN)).toMatchObject({ status: "on", idleSinceMs: T0 + 5 * MIN });
    expect(reasonOf(scene.ask("tool-off", { ...OVEN, ...ago(4 / 3) }))).toBe("bad-time");
  });

  it("H18 H20 A15 a whole heat-set made before another's leaves the tool in the other's hands, idle since that ended", () => {
    const scene = room();
    heat(at(scene, 3, "sol"), "t3", HOT);
    end(at(scene, 5, "sol"), "t3");
    at(scene, 5.5, "wren");
    heat(scene, "t2", HOT, 0);
    expect(useOf(scene, HOT)).toMatchObject({ holder: "sol" });
    end(scene, "t2", 2);
    expect(useOf(scene, HOT)).toMatchObject({ holder: "sol", idleSinceMs: T0 + 5 * MIN });
    expect(dueNow(scene)).toEqual([]);
    expect(reasonOf(scene.ask("tool-off", { ...HOT, ...ago(2.2) }))).toBe("bad-time");
    expect(dueOf(at(scene, 8, "wren"), "tool-left-on")).toMatchObject([{ recipients: { people: ["sol"] } }]);
  });

  it("H21 a heat-set begun after a hand-over takes the tool, one begun before it and landing late does not", () => {
    const scene = room();
    at(scene, 0, "wren").act("tool-on", HOT);
    at(scene, 2, "ida").act("hand-over-tool", { ...HOT, to: "sol" });
    heat(at(scene, 3, "wren"), "t2", HOT, 1);
    end(scene, "t2");
    expect(useOf(scene, HOT)).toMatchObject({ holder: "sol" });
    heat(at(scene, 4, "wren"), "t3", HOT);
    expect(useOf(scene, HOT)).toMatchObject({ holder: "wren" });
  });
});

describe("taps that land after the tool was said off", () => {
  /** Off by Ida at 5 min, after it was on. */
  function offAtFive(tool: { toolId: string }): Scene {
    const scene = room();
    at(scene, 0, "sol").act("tool-on", tool);
    at(scene, 5, "ida").act("tool-off", tool);
    return at(scene, 7, "wren");
  }
  const SAID = { status: "off", offAtMs: T0 + 5 * MIN, by: "ida" };

  it("H15 A15 a heat-set that began and ended before that is over: off, and cooling as before", () => {
    const scene = offAtFive(OVEN);
    const cools = toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs).text;
    heat(scene, "t2", OVEN, 0);
    expect(useOf(scene, OVEN)).toMatchObject({ status: "on", holder: "wren" });
    end(scene, "t2", 2);
    expect(useOf(scene, OVEN)).toEqual(SAID);
    expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs).text).toContain(cools);
    expect(dueOf(at(scene, 12, "wren"), "tool-left-on")).toEqual([]);
  });

  it("H19 H20 one that has not ended keeps the tool on, and idle from its end if that is later", () => {
    const scene = offAtFive(HOT);
    heat(scene, "t2", HOT, 0);
    expect(reasonOf(scene.ask("tool-off", { ...HOT, ...ago(6) }))).toBe("in-use");
    end(scene, "t2", 6);
    expect(useOf(scene, HOT)).toMatchObject({ status: "on", holder: "wren", idleSinceMs: T0 + 6 * MIN });
  });

  it("H19 so does a start taken back at once, which was before that too", () => {
    const scene = offAtFive(HOT);
    const actId = heat(scene, "t2", HOT, 0);
    scene.act("take-back", { trayId: "t2", actId, ...ago(0.2) });
    expect(useOf(scene, HOT)).toEqual(SAID);
  });

  it.each([
    ["used by another heat-set", (scene: Scene) => heat(scene, "t3", OVEN)],
    ["said to be in use", (scene: Scene) => scene.act("tool-still-in-use", OVEN)],
    ["handed over", (scene: Scene) => scene.act("hand-over-tool", { ...OVEN, to: "ida" })],
  ])("H19 but not where it was %s since", (_, since) => {
    const scene = offAtFive(OVEN);
    heat(scene, "t2", OVEN, 0);
    since(at(scene, 7.5, "sol"));
    end(at(scene, 8, "wren"), "t2", 2);
    if (scene.tray("t3").status.stage === "heat-set") end(scene, "t3");
    expect(useOf(scene, OVEN)?.status).toBe("on");
  });

  it("H19 switched on before that, it stays off; switched on after it, it is on", () => {
    const scene = offAtFive(HOT);
    scene.act("tool-on", { ...HOT, ...ago(1) });
    expect(useOf(scene, HOT)).toEqual(SAID);
    scene.act("tool-on", { ...HOT, ...ago(6) });
    expect(useOf(scene, HOT)).toMatchObject({ status: "on", onAtMs: T0 + 6 * MIN });
  });
});

describe("hand-overs that land late", () => {
  it("H16 do not undo a later one", () => {
    const scene = room();
    heat(at(scene, 0, "wren"), "t2", OVEN);
    at(scene, 4, "wren").act("hand-over-tool", { ...OVEN, to: "sol" });
    at(scene, 5, "wren").act("hand-over-tool", { ...OVEN, to: "ida", ...ago(2) });
    expect(useOf(scene, OVEN)).toMatchObject({ holder: "sol", handedOver: { to: "sol" } });
  });

  it("H17 H19 H21 take along what was under the heat by then, and leave the tool with whoever used it since", () => {
    const scene = room();
    heat(at(scene, 0, "wren"), "t2", OVEN);
    heat(at(scene, 3, "sol"), "t3", OVEN);
    at(scene, 5, "wren").act("hand-over-tool", { ...OVEN, to: "ida", ...ago(2) });
    expect(useOf(scene, OVEN)).toMatchObject({ holder: "sol" });
    const holders = ["t2", "t3"].map((trayId) => {
      const { status } = scene.tray(trayId);
      return status.stage === "heat-set" ? heatHolder(scene.kitchen, status.heat) : undefined;
    });
    expect(holders).toEqual(["ida", "sol"]);
  });

  it("H18 off said before a hand-over is not taken after it", () => {
    const scene = room();
    at(scene, 0, "wren").act("tool-on", HOT);
    at(scene, 2, "ida").act("hand-over-tool", { ...HOT, to: "sol" });
    expect(reasonOf(at(scene, 3, "wren").ask("tool-off", { ...HOT, ...ago(1) }))).toBe("bad-time");
  });
});
