import { wordsOf } from "#tests/support/alert-words.ts";
import { refusalOf } from "#tests/support/said.ts";
import { describe, expect, it } from "vitest";
import type { Decision } from "#shared/kitchen/commands/decide.ts";
import { stillHotUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import { airOfFilm } from "#shared/kitchen/forecast/air.ts";
import { toolsLine } from "#display/model/tools-line.ts";
import { dueNow, dueOf } from "../support/alerting.ts";
import { CABINET_HEATER, HOT_AIR } from "../support/furnishings.ts";
import { aKitchen, MIN, type Scene } from "../support/scene.ts";

const lead = (scene: Scene): Scene => scene.as("ida", "lead");

/** t2 flooded, the cabinet with its heater. */
function withCabinet(): Scene {
  const scene = lead(aKitchen());
  scene.act("put-tool", { tool: CABINET_HEATER });
  scene.as("wren").act("flooded", { trayId: "t2" });
  return scene;
}

const toCabinet = { trayId: "t2", placeId: "cabinet" };

describe("a tray moved to where a tool warms it", () => {
  it("H15 H38 switches the tool on, in the hands that moved it", () => {
    const scene = withCabinet();
    scene.act("move-tray", toCabinet);
    expect(scene.kitchen.tools["warm"]?.use).toEqual({
      status: "on",
      onAtMs: scene.nowMs,
      holder: "wren",
      idleSinceMs: scene.nowMs,
    });
    expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs).text).toBe(
      "Cabinet heater on under 1 min, Wren",
    );
    scene.act("read-tool-temperature", { toolId: "warm", tempC: 80 });
    expect(dueOf(scene, "oven-too-hot")).toMatchObject([{ class: "urgent", toolId: "warm" }]);
  });

  it("H15 so does one that comes there out of a heat-set, or back by an act taken back", () => {
    const scene = withCabinet();
    scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set", placeId: "cabinet" });
    expect(scene.kitchen.tools["warm"]?.use).toMatchObject({ status: "on", onAtMs: scene.nowMs });
    const moved = scene.later(MIN).act("move-tray", { trayId: "t2", placeId: "rack-a" });
    lead(scene).act("put-tool", { tool: { ...CABINET_HEATER, id: "new", name: "New heater" } });
    scene.as("wren").act("take-back", { trayId: "t2", actId: moved });
    expect(scene.kitchen.tools["new"]?.use).toMatchObject({ status: "on", holder: "wren" });
  });

  it("H10 one out of service is not switched on by a tray that goes back there, and no act is taken back into it", () => {
    const scene = withCabinet();
    scene.act("move-tray", toCabinet);
    scene.later(MIN).act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    scene.act("tool-off", { toolId: "warm" });
    scene.act("tool-out-of-service", { toolId: "warm", reason: "smells burnt" });
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(scene.tray("t2").placements.at(-1)?.placeId).toBe("cabinet");
    expect(scene.kitchen.tools["warm"]?.use.status).toBe("off");
    const film = scene.tray("t2").films[0]!;
    const { spells } = airOfFilm(scene.kitchen, scene.tray("t2"), film, scene.later(MIN).nowMs);
    expect(spells.at(-1)?.air.tempC).toBeLessThan(30);
    const moved = scene.later(MIN).act("move-tray", { trayId: "t2", placeId: "rack-a" });
    expect(refusalOf(scene.ask("take-back", { trayId: "t2", actId: moved }))).toEqual({
      reason: "out-of-service",
      message: "Cabinet heater is out of service: smells burnt",
    });
  });

  it("H19 but not where it was said off since: a move that lands late does not switch it on", () => {
    const scene = withCabinet();
    const movedMs = scene.nowMs;
    scene.later(MIN).act("tool-off", { toolId: "warm" });
    scene.later(MIN).act("move-tray", { ...toCabinet, atMs: movedMs });
    expect(scene.kitchen.tools["warm"]?.use.status).toBe("off");
  });

  it("H18 off said before it came there, and landing late, is not taken", () => {
    const scene = withCabinet();
    scene.act("tool-on", { toolId: "warm" });
    const saidMs = scene.later(MIN).nowMs;
    scene.later(MIN).act("move-tray", toCabinet);
    expect(refusalOf(scene.ask("tool-off", { toolId: "warm", atMs: saidMs })).reason).toBe("bad-time");
  });

  it("H11 a place whose tool is out of service or too hot takes none", () => {
    const scene = withCabinet();
    scene.act("tool-out-of-service", { toolId: "warm", reason: "hums" });
    expect(refusalOf(scene.ask("move-tray", toCabinet))).toEqual({
      reason: "out-of-service",
      message: "Cabinet heater is out of service: hums",
    });
    lead(scene).act("tool-back-in-service", { toolId: "warm" });
    scene.as("wren").act("read-tool-temperature", { toolId: "warm", tempC: 80 });
    expect(refusalOf(scene.ask("move-tray", toCabinet)).message).toContain("80 °C, over its limit of 45 °C");
  });
});

it("H25 an end is not taken back onto a tool that became another kind, or was read too hot", () => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t2" });
  scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
  const ended = scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
  scene.act("read-tool-temperature", { toolId: "hot-1", tempC: 400 });
  const back = () => refusalOf(scene.as("wren").ask("take-back", { trayId: "t2", actId: ended })).message;
  expect(back()).toContain("over its limit of 350 °C: start a new heat-set instead");
  scene.later(1000).act("read-tool-temperature", { toolId: "hot-1", tempC: 40 });
  const tool = { ...HOT_AIR, kind: "oven", placeId: "oven", airC: 65, maxAirC: 80 };
  lead(scene).act("put-tool", { tool });
  expect(back()).toBe("Hot-air tool 1 is another kind of tool now: start a new heat-set instead.");
});

describe("a hot tray", () => {
  const hotUntilMs = (scene: Scene): number =>
    stillHotUntilMs(scene.kitchen, scene.tray("t2"), scene.nowMs) ?? 0;

  it("H23 the start of a heat-set is taken back for 20 s, the tray told hot; later its clock and alarm stand", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    const slip = scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    scene.later(20_000).act("take-back", { trayId: "t2", actId: slip });
    expect(scene.tray("t2").status).toEqual({ stage: "full-dry" });
    const toldMs = hotUntilMs(scene);
    expect(toldMs).toBeGreaterThan(scene.nowMs + MIN);
    // Nor does a take-back of something else fold it away.
    const moved = scene.act("move-tray", { trayId: "t2", placeId: "fan" });
    scene.act("take-back", { trayId: "t2", actId: moved });
    expect(hotUntilMs(scene)).toBe(toldMs);
    const actId = scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    const back = { trayId: "t2", actId };
    expect(refusalOf(lead(scene.later(20_001)).ask("take-back", back))).toEqual({
      reason: "too-late",
      message: "That heat-set started over 20 s ago: end it instead.",
    });
    expect(dueNow(scene.later(6 * MIN))).toMatchObject([{ kind: "heat-running-long" }]);
    scene.act("end-heat-set", { trayId: "t2", result: "set" });
    expect(refusalOf(scene.ask("take-back", back)).message).toContain("it stays in the tray's history");
  });

  it("H5 is not told cool sooner for a later, milder heat", () => {
    const oven = { id: "oven", name: "Low oven", kind: "oven", airSpeedMs: 0.5, capacity: 2 };
    const scene = lead(aKitchen());
    scene.act("flooded", { trayId: "t2" });
    const spell = (setTempC: number): void => {
      scene.act("put-place", { place: { ...oven, setTempC } });
      scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
      scene.later(15_000).act("end-heat-set", { trayId: "t2", result: "set" });
    };
    spell(80);
    const after80Ms = hotUntilMs(scene);
    spell(52);
    expect(hotUntilMs(scene)).toBe(after80Ms);
  });

  it("H4 is hot as long as it stands where it is hotter than 51 °C, and cools once it leaves", () => {
    const scene = withCabinet();
    const place = { ...scene.kitchen.places["cabinet"], setTempC: 55 };
    lead(scene).act("put-tool", { tool: { ...CABINET_HEATER, maxAirC: 60 } });
    scene.act("put-place", { place });
    scene.as("wren").act("move-tray", toCabinet);
    for (let hour = 0; hour < 3; hour += 1)
      expect(hotUntilMs(scene.later(60 * MIN))).toBeGreaterThan(scene.nowMs);
    expect(toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs).text).toContain(
      "Hot, dry mitts: 7 until about",
    );
    scene.act("tool-off", { toolId: "warm" });
    expect(hotUntilMs(scene.later(9 * MIN))).toBeGreaterThan(0);
    expect(hotUntilMs(scene.later(MIN))).toBe(0);
    scene.act("tool-on", { toolId: "warm" });
    scene.act("move-tray", { trayId: "t2", placeId: "rack-a" });
    const outMs = hotUntilMs(scene);
    expect(outMs).toBeGreaterThan(scene.nowMs);
    expect(hotUntilMs(scene.later(MIN))).toBe(outMs);
    expect(hotUntilMs(scene.later(outMs - scene.nowMs))).toBe(0);
  });

  it("H3 H15 a bench where a hot-air tool is kept heats nothing, and putting a tray there switches nothing on", () => {
    const scene = lead(aKitchen());
    scene.act("put-tool", { tool: { ...HOT_AIR, placeId: "fan" } });
    scene.act("read-tool-temperature", { toolId: "hot-1", tempC: 250 });
    scene.act("move-tray", { trayId: "t2", placeId: "fan" });
    expect(hotUntilMs(scene)).toBe(0);
    expect(scene.kitchen.tools["hot-1"]?.use.status).toBe("off");
    scene.act("tool-on", { toolId: "hot-1" });
    expect(dueOf(scene.later(3 * MIN), "tool-left-on")).toHaveLength(1);
  });
});

describe("a tool that cools", () => {
  const OFF = { toolId: "oven-1" };
  const line = (scene: Scene): string | undefined =>
    toolsLine(wordsOf(scene.kitchen), scene.kitchen, scene.nowMs).text;

  it("H22 is not said to have been off longer by an earlier word that lands late", () => {
    const scene = aKitchen();
    const earlierMs = scene.nowMs;
    scene.later(60 * MIN).act("tool-off", OFF);
    scene.act("tool-off", { ...OFF, atMs: earlierMs });
    expect(line(scene)).toBe("Low oven hot until about 10:30");
  });

  it("H22 is not removed until it has", () => {
    const scene = lead(aKitchen());
    scene.act("tool-off", OFF);
    expect(refusalOf(scene.later(MIN).ask("remove-tool", OFF))).toEqual({
      reason: "in-use",
      message: "Low oven is hot until about 09:30: remove it once it has cooled.",
    });
    expect(scene.later(29 * MIN).ask("remove-tool", OFF).ok).toBe(true);
  });

  it("H22 goes on with the cool-down it was switched off with when it is set shorter, by a longer one at once", () => {
    const scene = lead(aKitchen());
    scene.act("tool-off", OFF);
    const { use: _use, lastOffMs: _off, ...tool } = scene.kitchen.tools["oven-1"]!;
    for (const coolDownMin of [1, 5]) scene.act("put-tool", { tool: { ...tool, coolDownMin } });
    expect(line(scene)).toBe("Low oven hot until about 09:30");
    scene.act("put-tool", { tool: { ...tool, coolDownMin: 60 } });
    expect(line(scene)).toBe("Low oven hot until about 10:00");
    scene.act("put-tool", { tool: { ...tool, coolDownMin: 5 } });
    scene.act("tool-on", OFF);
    scene.act("tool-off", OFF);
    expect(line(scene)).toBe("Low oven hot until about 09:05");
  });
});

it("H32 stop-by is sooner in an oven that is read hotter than it is set", () => {
  const stopByS = (readC?: number): number => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    // The kitchen knows its icing well enough that the latest set time, not the tool's cap, says when to stop.
    scene.forecast("t2", 0, { heatFactors: { oven: { meanLn: -0.4, sdLn: 0.15 } } });
    if (readC !== undefined) scene.act("read-tool-temperature", { toolId: "oven-1", tempC: readC });
    scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    const { status } = scene.tray("t2");
    return status.stage === "heat-set" ? status.heat.limits.stopByS : 0;
  };
  expect(stopByS(80)).toBeLessThan(stopByS());
  expect(stopByS(60)).toBe(stopByS());
});

describe("a place that is a tool", () => {
  const put = (scene: Scene, change: object): Decision =>
    lead(scene).ask("put-place", { place: { ...scene.kitchen.places["oven"], ...change } });

  it("H14 keeps its kind", () => {
    expect(refusalOf(put(aKitchen(), { kind: "warm-cabinet", setTempC: 40 }))).toEqual({
      reason: "in-use",
      message: "place.kind must be oven while Low oven is there: remove the tool first.",
    });
  });

  it.each([
    ["setTempC", 45],
    ["airSpeedMs", 3],
    ["kind", "warm-cabinet"],
  ])("H13 keeps its %s while a tray is under its heat, and its name is free", (field, value) => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    expect(refusalOf(put(scene, { [field]: value })).message).toBe(
      `place.${field} can be changed once tray 7 is out of Low oven: end its heat-set first.`,
    );
    expect(put(scene, { name: "Oven by the door" }).ok).toBe(true);
    scene.as("wren").later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    if (field !== "kind") expect(put(scene, { [field]: value }).ok).toBe(true);
  });
});

it.each([
  ["hot-1", 2],
  ["oven-1", 10],
])("H8 under %s a heat-set ends as set from %i s on, and otherwise at once", (toolId, leastS) => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t2" });
  scene.act("start-heat-set", { trayId: "t2", toolId });
  const end = { trayId: "t2", result: "set" };
  expect(refusalOf(scene.later(1000 * leastS - 1).ask("end-heat-set", end))).toEqual({
    reason: "bad-time",
    message: `Too soon to be set: that takes at least ${leastS} s under heat. Undo it if it was a slip.`,
  });
  expect(scene.later(1).ask("end-heat-set", end).ok).toBe(true);
  scene.act("start-heat-set", { trayId: "t2", toolId });
  expect(scene.ask("end-heat-set", { ...end, result: "swollen or cracked" }).ok).toBe(true);
});
