import { refusalOf, worded } from "#tests/support/said.ts";
import { describe, expect, it } from "vitest";
import type { CommandId, PersonId } from "#shared/ids.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { cookieUnder, heatHolder, standsAt } from "#shared/kitchen/model/lookups.ts";
import { HOT_AIR } from "../support/furnishings.ts";
import { aKitchen, HOUR, id, MIN, type Scene, T0 } from "../support/scene.ts";

const underHotAir = (): Scene => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t2" });
  scene.later(MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
  return scene;
};

describe("heat-sets and tools", () => {
  it("H26 flooded, tapped offline before someone else took hot air to the tray, lands as what it was", () => {
    const scene = aKitchen();
    scene.act("start-flooding", { trayId: "t2" });
    const laidMs = scene.later(5 * MIN).nowMs;
    scene.as("sol").later(MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(MIN).as("wren").act("flooded", { trayId: "t2", atMs: laidMs });
    expect(scene.tray("t2")).toMatchObject({
      films: [{ layer: 0, clockStartMs: laidMs }],
      status: { stage: "heat-set", before: { stage: "full-dry" } },
    });
    scene.later(MIN).as("sol").act("end-heat-set", { trayId: "t2", result: "not yet" });
    expect(scene.tray("t2").status).toEqual({ stage: "full-dry" });
    // Laid after the heat began it is as before: the heat ends first.
    scene.as("wren").act("start-flooding", { trayId: "t3" });
    scene.later(MIN).act("start-heat-set", { trayId: "t3", toolId: "hot-1" });
    expect(refusalOf(scene.later(MIN).ask("flooded", { trayId: "t3" })).message).toContain(
      "end the heat-set",
    );
  });

  it("H33 limits go by what the kitchen has taught of such films", () => {
    const limitsWith = (meanLn?: number): number => {
      const scene = aKitchen();
      scene.act("flooded", { trayId: "t2" });
      scene.forecast("t2", 0, meanLn === undefined ? {} : { heatFactors: { oven: { meanLn, sdLn: 0.2 } } });
      scene.later(MIN).act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
      const { status } = scene.tray("t2");
      if (status.stage !== "heat-set") throw new Error(status.stage);
      return status.heat.limits.checkFromS;
    };
    expect(limitsWith(-0.5)).toBeLessThan(limitsWith(0));
    expect(limitsWith(0.3)).toBeGreaterThan(limitsWith(0));
    expect(limitsWith()).toBeGreaterThan(0);
  });

  it("H1 hot air that is kept in a place moves no tray there, and has its own temperature", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-tool", { tool: { ...HOT_AIR, placeId: "cabinet" } });
    scene.as("wren").act("flooded", { trayId: "t2" });
    scene.later(MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    expect(standsAt(scene.tray("t2")).placeId).toBe("rack-a");
    const { status } = scene.tray("t2");
    expect(status.stage === "heat-set" && status.heat.airC).toBe(HOT_AIR.airC);
    // As an earlier version logged it.
    const started = scene.events.at(-1)!;
    if (started.type !== "heat-set-started") throw new Error(started.type);
    scene.act("take-back", { trayId: "t2", actId: started.actId });
    const old = evolve(scene.kitchen, { ...started, placeId: id("cabinet"), actId: id("old") });
    expect(standsAt(old.trays["t2"]!).placeId).toBe("rack-a");
  });

  it("H1 under hot air each cookie has its own lap, up to the tray's count", () => {
    const scene = underHotAir();
    for (let lap = 1; lap < 10; lap += 1) scene.later(90_000).nextCookie("t2");
    expect(refusalOf(scene.later(90_000).ask("next-cookie", { trayId: "t2" })).message).toContain(
      "All 10 cookies of tray 7",
    );
    scene.act("end-heat-set", { trayId: "t2", result: "set" });
    expect(scene.tray("t2").heats).toMatchObject([
      { result: "set", laps: { length: 10 }, toolKind: "hot-air" },
    ]);
    expect(scene.tray("t2").status).toEqual({ stage: "full-dry" });
    expect(scene.tray("t2").films[0]?.findings).toMatchObject([{ finding: "skinned" }]);
  });

  it("H1 a later heat-set goes on with the cookie after those that are set, and one found not set counts for none", () => {
    const scene = underHotAir();
    const cookie = (): number => {
      const { status } = scene.tray("t2");
      if (status.stage !== "heat-set") throw new Error("not under heat");
      return cookieUnder(scene.tray("t2"), status.heat);
    };
    for (let lap = 1; lap < 4; lap += 1) scene.later(MIN).nextCookie("t2");
    expect(cookie()).toBe(4);
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "not yet" });
    scene.later(MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    expect(cookie()).toBe(4);
    for (let lap = 4; lap < 9; lap += 1) scene.later(MIN).nextCookie("t2");
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    const skinned = () => scene.tray("t2").films[0]?.findings.filter(({ finding }) => finding === "skinned");
    expect(skinned()).toEqual([]);
    scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    expect(cookie()).toBe(10);
    expect(scene.later(MIN).ask("next-cookie", { trayId: "t2" }).ok).toBe(false);
    scene.act("end-heat-set", { trayId: "t2", result: "set" });
    expect(skinned()).toHaveLength(1);
  });

  it("H2 under an oven the whole tray goes in, has no laps, and comes out hot to where it was", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t1" });
    scene.act("start-heat-set", { trayId: "t1", toolId: "oven-1" });
    expect(standsAt(scene.tray()).placeId).toBe("oven");
    expect(refusalOf(scene.later(MIN).ask("next-cookie", { trayId: "t1" })).message).toContain(
      "no next cookie",
    );
    scene.later(2 * MIN).act("end-heat-set", { trayId: "t1", result: "set" });
    expect(standsAt(scene.tray())).toMatchObject({ placeId: "rack-a", slot: "6" });
    expect(scene.tray().hotUntilMs).toBeGreaterThan(scene.nowMs);
    expect(scene.tray().hotUntilMs).toBeLessThan(scene.nowMs + HOUR);
  });

  it("H7 the limits told at the start are kept with the heat-set: check-from ≤ check-to ≤ stop-by ≤ cap", () => {
    const scene = underHotAir();
    const { status } = scene.tray("t2");
    if (status.stage !== "heat-set") throw new Error("not under heat");
    const { checkFromS, checkToS, stopByS, capS } = status.heat.limits;
    expect(checkFromS).toBeLessThanOrEqual(checkToS);
    expect(checkToS).toBeLessThanOrEqual(stopByS);
    expect(stopByS).toBeLessThanOrEqual(capS);
    expect(capS).toBe(180);
  });

  it.each([
    [
      "a lap without a heat-set",
      (scene: Scene) => scene.ask("next-cookie", { trayId: "t3" }),
      "wrong-stage",
      "not under heat",
    ],
    [
      "a second heat-set of one tray",
      (scene: Scene) => scene.ask("start-heat-set", { trayId: "t2", toolId: "oven-1" }),
      "wrong-stage",
      "already",
    ],
    [
      "a tray with no icing",
      (scene: Scene) => scene.ask("start-heat-set", { trayId: "t3", toolId: "oven-1" }),
      "wrong-stage",
      "no icing to set",
    ],
    [
      "hot air that is over another tray",
      (scene: Scene) => {
        scene.act("flooded", { trayId: "t3" });
        return scene.ask("start-heat-set", { trayId: "t3", toolId: "hot-1" });
      },
      "in-use",
      "over tray 7",
    ],
    [
      "a floury double tap",
      (scene: Scene) => {
        scene.later(1_000);
        return scene.ask("next-cookie", { trayId: "t2" });
      },
      "bad-time",
      "at least 2 s",
    ],
    [
      "flooding under heat",
      (scene: Scene) => scene.ask("flooded", { trayId: "t2" }),
      "wrong-stage",
      "end the heat-set first",
    ],
    [
      "moving under heat",
      (scene: Scene) => scene.ask("move-tray", { trayId: "t2", placeId: "fan" }),
      "wrong-stage",
      "end the heat-set first",
    ],
    [
      "more spoiled than there are",
      (scene: Scene) =>
        scene.ask("end-heat-set", { trayId: "t2", result: "swollen or cracked", spoiled: 11 }),
      "out-of-range",
      "0 to 10",
    ],
    [
      "650 typed for 65.0",
      (scene: Scene) => scene.ask("read-tool-temperature", { toolId: "oven-1", tempC: 590 }),
      "out-of-range",
      "-5 to 300 °C",
    ],
  ])("H9 %s is refused in words", (_, when, reason, words) => {
    const refusal = refusalOf(when(underHotAir()));
    expect(refusal.reason).toBe(reason);
    expect(refusal.message).toContain(words);
  });

  it("H10 a tool out of service takes no tray, and only a lead brings it back", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.act("tool-out-of-service", { toolId: "hot-1", reason: "cord frayed" });
    expect(refusalOf(scene.ask("start-heat-set", { trayId: "t2", toolId: "hot-1" })).message).toBe(
      "Hot-air tool 1 is out of service: cord frayed",
    );
    expect(refusalOf(scene.ask("tool-back-in-service", { toolId: "hot-1" })).reason).toBe("not-allowed");
    scene.as("ida", "lead").act("tool-back-in-service", { toolId: "hot-1" });
    expect(scene.as("wren").ask("start-heat-set", { trayId: "t2", toolId: "hot-1" }).ok).toBe(true);
  });

  it("H11 an oven read above its limit takes no tray until it is read lower", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.act("read-tool-temperature", { toolId: "oven-1", tempC: 92 });
    expect(refusalOf(scene.ask("start-heat-set", { trayId: "t2", toolId: "oven-1" })).message).toContain(
      "92 °C, over its limit of 80 °C",
    );
    expect(scene.later(HOUR).ask("start-heat-set", { trayId: "t2", toolId: "oven-1" }).ok).toBe(false);
    scene.act("read-tool-temperature", { toolId: "oven-1", tempC: 66 });
    expect(scene.ask("start-heat-set", { trayId: "t2", toolId: "oven-1" }).ok).toBe(true);
  });

  it("H16 H20 a heat-set switches its tool on; ending leaves it idle until someone says it is off", () => {
    const scene = underHotAir();
    expect(scene.kitchen.tools["hot-1"]?.use).toEqual({ status: "on", onAtMs: scene.nowMs, holder: "wren" });
    expect(refusalOf(scene.ask("tool-off", { toolId: "hot-1" })).message).toContain(
      "stop the heat-set first",
    );
    scene.later(2 * MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(scene.kitchen.tools["hot-1"]?.use).toMatchObject({ status: "on", idleSinceMs: scene.nowMs });
    scene.later(MIN).act("tool-still-in-use", { toolId: "hot-1" });
    expect(scene.kitchen.tools["hot-1"]?.use).toMatchObject({ idleSinceMs: scene.nowMs });
    const wall = { id: id<PersonId>("main-wall"), name: "Main wall", role: "wall" as const };
    scene.kitchen = { ...scene.kitchen, people: { ...scene.kitchen.people, [wall.id]: wall } };
    expect(refusalOf(scene.ask("hand-over-tool", { toolId: "hot-1", to: wall.id })).message).toContain(
      "Main wall has no hands",
    );
    scene.act("hand-over-tool", { toolId: "hot-1", to: "sol" });
    expect(scene.kitchen.tools["hot-1"]?.use).toMatchObject({ holder: "sol" });
    scene.act("tool-off", { toolId: "hot-1" });
    expect(scene.kitchen.tools["hot-1"]?.use).toEqual({ status: "off", offAtMs: scene.nowMs, by: "wren" });
  });

  it("H15 a heat-set always has a holder: the kitchen's own server starts none", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    Object.assign(scene, { by: "kitchen", role: "kitchen" });
    expect(refusalOf(scene.ask("start-heat-set", { trayId: "t2", toolId: "hot-1" })).reason).toBe(
      "not-allowed",
    );
    expect(scene.kitchen.tools["hot-1"]?.use.status).toBe("off");
  });

  it("H15 a start taken back leaves the tool on with nothing under it, an end taken back switches it on again", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    const started = scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(10_000).act("take-back", { trayId: "t2", actId: started });
    expect(scene.kitchen.tools["hot-1"]?.use).toMatchObject({ status: "on", idleSinceMs: scene.nowMs });
    scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    const ended = scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    scene.act("tool-off", { toolId: "hot-1" });
    scene.act("take-back", { trayId: "t2", actId: ended });
    expect(scene.kitchen.tools["hot-1"]?.use).toEqual({
      status: "on",
      onAtMs: scene.nowMs - MIN,
      holder: "wren",
    });
  });

  it("H25 an end cannot be taken back once its tool is over another tray, or out of service", () => {
    const busy = aKitchen();
    for (const trayId of ["t2", "t3"]) busy.act("flooded", { trayId });
    busy.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    const ended = busy.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    busy.later(5000).act("start-heat-set", { trayId: "t3", toolId: "hot-1" });
    expect(worded(busy.ask("take-back", { trayId: "t2", actId: ended }))).toMatchObject({
      refusal: {
        reason: "too-late",
        message: "Hot-air tool 1 is over tray 8 now: start a new heat-set instead.",
      },
    });
    const broken = aKitchen();
    broken.act("flooded", { trayId: "t2" });
    broken.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    const last = broken.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    broken.act("tool-out-of-service", { toolId: "hot-1", reason: "frayed cord" });
    expect(worded(broken.ask("take-back", { trayId: "t2", actId: last }))).toMatchObject({
      refusal: { message: "Hot-air tool 1 is out of service: start a new heat-set instead." },
    });
  });

  it("H18 off said late by a phone that was out of reach is not taken once the tool was used again", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "not yet" });
    const saidMs = scene.nowMs + 2000;
    scene
      .later(5 * MIN)
      .as("sol")
      .act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(scene.as("wren").ask("tool-off", { toolId: "hot-1", atMs: saidMs })).toMatchObject({
      refusal: { reason: "bad-time" },
    });
    expect(scene.kitchen.tools["hot-1"]?.use).toMatchObject({ status: "on" });
    expect(scene.ask("tool-off", { toolId: "hot-1" }).ok).toBe(true);
  });

  it("H13 a tool does not become another kind while a tray is under it", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    const tool = {
      id: "oven-1",
      name: "Low oven",
      kind: "hot-air",
      airC: 270,
      maxAirC: 350,
      capS: 180,
      coolDownMin: 10,
    };
    expect(scene.as("ida", "lead").ask("put-tool", { tool })).toMatchObject({
      refusal: { reason: "in-use" },
    });
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(scene.ask("put-tool", { tool }).ok).toBe(true);
  });

  it("H3 a tray is as hot as its oven was: at the start, as set now, or as read", () => {
    const hotFor = (setC: number, change: (scene: Scene) => void): number | undefined => {
      const scene = aKitchen();
      const oven = { id: "oven", name: "Low oven", kind: "oven", airSpeedMs: 0.5, capacity: 2 };
      const set = (setTempC: number): void =>
        void scene.as("ida", "lead").act("put-place", { place: { ...oven, setTempC } });
      set(setC);
      scene.as("wren").act("flooded", { trayId: "t2" });
      scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
      change(scene);
      scene.as("wren").later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
      const { hotUntilMs } = scene.tray("t2");
      return hotUntilMs === undefined ? undefined : hotUntilMs - scene.nowMs;
    };
    const at = hotFor(66, () => undefined);
    expect(at).toBeGreaterThan(0);
    expect(
      hotFor(66, (scene) => {
        const place = { ...scene.kitchen.places["oven"]!, setTempC: 45 };
        // Refused nowadays; a log may hold it.
        expect(refusalOf(scene.as("ida", "lead").ask("put-place", { place })).reason).toBe("in-use");
        const base = { atMs: scene.nowMs, by: id<PersonId>("ida"), actId: id<CommandId>("cooler") };
        scene.kitchen = evolve(scene.kitchen, { type: "place-put", ...base, place });
      }),
    ).toBe(at);
    expect(hotFor(50, (scene) => scene.act("read-tool-temperature", { toolId: "oven-1", tempC: 66 }))).toBe(
      at,
    );
  });

  it("K19 a tray under heat keeps its room where it came from, and a move is not taken back onto a full place", () => {
    const scene = aKitchen();
    for (const trayId of ["t1", "t2"]) scene.act("move-tray", { trayId, placeId: "fan" });
    scene.act("flooded", { trayId: "t2" });
    scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    const toFan = { trayId: "t3", placeId: "fan" };
    expect(refusalOf(scene.ask("move-tray", toFan)).reason).toBe("no-room");
    expect(refusalOf(scene.as("ida", "lead").ask("remove-place", { placeId: "fan" })).message).toContain("7");
    scene.as("wren").later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(standsAt(scene.tray("t2")).placeId).toBe("fan");
    const moved = scene.act("move-tray", { trayId: "t2", placeId: "rack-a" });
    scene.act("move-tray", toFan);
    expect(refusalOf(scene.ask("take-back", { trayId: "t2", actId: moved })).message).toBe(
      "Fan rack is full: it holds 2 trays.",
    );
  });

  it("H11 an oven that its hygrometer reads too hot takes no tray, nor for half an hour once it is said off", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.act("enter-reading", { reading: { placeId: "oven", tempC: 110, rhPct: 5, source: "sensor" } });
    expect(scene.ask("start-heat-set", { trayId: "t2", toolId: "oven-1" })).toMatchObject({
      refusal: { reason: "out-of-service" },
    });
    expect(scene.later(31 * MIN).ask("start-heat-set", { trayId: "t2", toolId: "oven-1" }).ok).toBe(false);
    scene.act("tool-off", { toolId: "oven-1" });
    expect(scene.ask("start-heat-set", { trayId: "t2", toolId: "oven-1" }).ok).toBe(true);
  });

  it("H37 a heat-set's limits go by the oven's own hygrometer where there is one, else by the room's moisture", () => {
    const checkFromS = (...airs: { placeId: string; tempC: number; rhPct: number }[]): number => {
      const scene = aKitchen();
      for (const air of airs) scene.act("enter-reading", { reading: { ...air, source: "sensor" } });
      scene.act("flooded", { trayId: "t2" });
      scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
      const { status } = scene.tray("t2");
      if (status.stage !== "heat-set") throw new Error(status.stage);
      return status.heat.limits.checkFromS;
    };
    const room = { placeId: "rack-a", tempC: 22, rhPct: 50 };
    const unread = checkFromS(room);
    expect(checkFromS(room, { placeId: "oven", tempC: 65.6, rhPct: 30 })).toBeGreaterThan(unread);
    // Read while it was cold, the same air holds the same water: it does not count as 50 % of a hot oven.
    expect(checkFromS(room, { placeId: "oven", tempC: 22, rhPct: 50 })).toBeCloseTo(unread, 6);
  });

  it("H9 H11 a kitchen that thinks in °F is told in °F why its oven takes no tray", () => {
    const scene = aKitchen();
    scene.as("ida", "lead").act("set-kitchen", { settings: { units: "us" } });
    scene.act("flooded", { trayId: "t2" });
    scene.act("read-tool-temperature", { toolId: "oven-1", tempC: 90 });
    expect(
      refusalOf(scene.ask("start-heat-set", { trayId: "t2", toolId: "oven-1" }), "us").message,
    ).toContain("read at 194 °F, over its limit of 176 °F");
  });

  it("H17 a tool that is handed over takes what is under its heat along, and not what comes under it later", () => {
    const scene = aKitchen();
    for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
    scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    scene.later(MIN).act("hand-over-tool", { toolId: "oven-1", to: "sol" });
    scene.later(MIN).as("ida", "lead").act("start-heat-set", { trayId: "t3", toolId: "oven-1" });
    const holders = ["t2", "t3"].map((trayId) => {
      const { status } = scene.tray(trayId);
      return status.stage === "heat-set" ? heatHolder(scene.kitchen, status.heat) : undefined;
    });
    expect(holders).toEqual(["sol", "ida"]);
  });

  it("H24 the end of a heat-set is taken back within two minutes only, and its clock runs on from the start", () => {
    const scene = underHotAir();
    const ended = scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    scene.later(10_000).act("take-back", { trayId: "t2", actId: ended });
    expect(scene.tray("t2").status).toMatchObject({ stage: "heat-set", heat: { startedAtMs: T0 + MIN } });
    const again = scene.act("end-heat-set", { trayId: "t2", result: "set" });
    expect(refusalOf(scene.later(3 * MIN).ask("take-back", { trayId: "t2", actId: again })).reason).toBe(
      "too-late",
    );
  });

  it("H26 heat while flooding sets the cookies done so far and goes back to flooding", () => {
    const scene = aKitchen();
    scene.act("start-flooding", { trayId: "t2" });
    scene.later(3 * MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(90_000).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(scene.tray("t2").status).toMatchObject({ stage: "flooding", layer: 0 });
  });

  it("H27 what goes into a chamber while it is flooded is laid: its film has the heat and what was found", () => {
    const scene = aKitchen();
    scene.act("start-flooding", { trayId: "t2" });
    const heat = scene.later(3 * MIN).act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    expect(scene.tray("t2").films).toMatchObject([
      { layer: 0, floodingFromMs: T0, clockStartMs: T0 + 3 * MIN, by: "wren" },
    ]);
    scene.later(4 * MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(scene.tray("t2").status.stage).toBe("full-dry");
    expect(scene.tray("t2").films[0]?.findings).toMatchObject([{ finding: "skinned", atMs: T0 + 7 * MIN }]);

    const slip = aKitchen();
    slip.act("start-flooding", { trayId: "t2" });
    const actId = slip.later(3 * MIN).act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    expect(actId).not.toBe(heat);
    slip.later(5000).act("take-back", { trayId: "t2", actId });
    expect(slip.tray("t2").status.stage).toBe("full-dry");
    slip.act("take-back", { trayId: "t2", actId: `${actId}-laid` });
    expect(slip.tray("t2").status).toMatchObject({ stage: "flooding", startedAtMs: T0 });
  });

  it("H29 swollen or cracked cookies are counted as problems", () => {
    const scene = underHotAir();
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "swollen or cracked", spoiled: 3 });
    expect(scene.tray("t2").problems).toMatchObject([{ problem: "swollen", count: 3 }]);
  });
});

describe("H41 between two cookies", () => {
  /** Tray 2 under hot air with one cookie set, a minute into its heat. */
  function paused() {
    const scene = aKitchen();
    scene.act("start-flooding", { trayId: "t2" });
    scene.later(MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(MIN).act("next-cookie", { trayId: "t2" });
    return scene;
  }
  const heatOf = (scene: Scene) => {
    const { status } = scene.tray("t2");
    if (status.stage !== "heat-set") throw new Error(status.stage);
    return status.heat;
  };
  const alertsOf = (scene: Scene): string[] => {
    scene.act("reconcile-alerts", {});
    return Object.values(scene.kitchen.alerts).map(({ kind }) => kind);
  };

  it("H41 the next cookie's clock waits until the heat is on it: flood cookie 2, then heat", () => {
    const scene = paused();
    expect(heatOf(scene)).toMatchObject({ pausedSinceMs: scene.nowMs, laps: [{}] });
    scene.later(2 * MIN).act("heat-on", { trayId: "t2" });
    expect(heatOf(scene)).not.toHaveProperty("pausedSinceMs");
    expect(heatOf(scene).lapFromMs).toBe(scene.nowMs);
    scene.later(MIN).act("next-cookie", { trayId: "t2" });
    expect(heatOf(scene).laps.map(({ fromMs, toMs }) => toMs - fromMs)).toEqual([MIN, MIN]);
  });

  it("H41 A15 no heat alert runs meanwhile, but a tool that stays on no cookie is left on, until it is said to be in use", () => {
    const scene = paused().as("kitchen", "kitchen");
    expect(alertsOf(scene.later(2 * MIN))).toEqual([]);
    expect(alertsOf(scene.later(2 * MIN))).toEqual(["tool-left-on"]);
    scene.as("wren").act("tool-still-in-use", { toolId: "hot-1" });
    scene.as("kitchen", "kitchen");
    expect(alertsOf(scene.later(MIN))).toEqual([]);
    scene.as("wren").act("heat-on", { trayId: "t2" });
    scene.as("kitchen", "kitchen");
    expect(alertsOf(scene.later(4 * MIN))).toEqual(["heat-running-long"]);
  });

  it("H41 no cookie is set, nor found not set, while the heat is on none; and it is put on once", () => {
    const scene = paused().later(MIN);
    const isRefusedAs = (decision: ReturnType<Scene["ask"]>, message: string): void =>
      expect(refusalOf(decision)).toEqual({ reason: "wrong-stage", message });
    const none = "The heat is on no cookie: tap “Heat on” first.";
    isRefusedAs(scene.ask("next-cookie", { trayId: "t2" }), none);
    isRefusedAs(scene.ask("end-heat-set", { trayId: "t2", result: "not yet" }), none);
    scene.act("heat-on", { trayId: "t2" });
    isRefusedAs(scene.ask("heat-on", { trayId: "t2" }), "The heat is on already: its clock runs.");
  });

  it("H41 stopped there, the cookies that had their lap are set and no lap is added", () => {
    const scene = paused().later(5 * MIN);
    scene.act("end-heat-set", { trayId: "t2", result: "set" });
    expect(scene.tray("t2").heats).toMatchObject([{ laps: [{}], result: "set" }]);
    expect(scene.tray("t2").heats[0]!.laps).toHaveLength(1);
    expect(scene.tray("t2").heats[0]).not.toHaveProperty("pausedSinceMs");
    scene.later(MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    expect(cookieUnder(scene.tray("t2"), heatOf(scene))).toBe(2);
  });

  it("H41 K16 each act is undone: heat on comes back to waiting, cookie set to its running clock", () => {
    const scene = paused();
    const setAtMs = scene.nowMs;
    const [set] = scene.events.slice(-1);
    const heatOn = scene.later(10_000).act("heat-on", { trayId: "t2" });
    expect(refusalOf(scene.ask("take-back", { trayId: "t2", actId: set!.actId })).message).toContain(
      "hot air on cookie 2",
    );
    scene.act("take-back", { trayId: "t2", actId: heatOn });
    expect(heatOf(scene).pausedSinceMs).toBe(setAtMs);
    scene.act("take-back", { trayId: "t2", actId: set!.actId });
    expect(heatOf(scene)).not.toHaveProperty("pausedSinceMs");
    expect(heatOf(scene)).toMatchObject({ laps: [], lapFromMs: setAtMs - MIN });
  });

  it("H43 a cookie set is taken back for 20 s while the tray is under heat; later its clock does not run on", () => {
    const scene = paused();
    const actId = scene.events.at(-1)!.actId;
    const late = refusalOf(scene.as("ida", "lead").later(21_000).ask("take-back", { trayId: "t2", actId }));
    expect(late).toEqual({
      reason: "too-late",
      message:
        "That cookie was set over 20 s ago: its clock does not run on. Report a problem with it instead.",
    });
    expect(heatOf(scene)).toMatchObject({ pausedSinceMs: scene.nowMs - 21_000, laps: [{}] });
  });

  it("H23 H41 heat on can be taken back for 20 s: later the cookie's clock and its alarm stand", () => {
    const scene = paused();
    const heatOn = scene.act("heat-on", { trayId: "t2" });
    const late = refusalOf(scene.later(21_000).ask("take-back", { trayId: "t2", actId: heatOn }));
    expect(late.reason).toBe("too-late");
    expect(late.message).toContain("end it instead");
    expect(alertsOf(scene.as("kitchen", "kitchen").later(4 * MIN))).toEqual(["heat-running-long"]);
  });

  it("H41 P19 in a log from before there was a pause the next clock ran on at once", () => {
    const scene = paused();
    const log = scene.events.map((event) => {
      if (event.type !== "cookie-set") return event;
      const { pauses: _, ...before } = event;
      return before;
    });
    const status = log.reduce(evolve, EMPTY_KITCHEN).trays["t2"]?.status;
    expect(status?.stage === "heat-set" && status.heat).toMatchObject({ lapFromMs: scene.nowMs });
    expect(status?.stage === "heat-set" && status.heat).not.toHaveProperty("pausedSinceMs");
  });
});

it("H42 how soon a jet held still overheats icing is kept with the limits that were told", () => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t2" });
  scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
  const { status } = scene.tray("t2");
  if (status.stage !== "heat-set") throw new Error(status.stage);
  const { heldTooLongS, stopByS } = status.heat.limits;
  expect(heldTooLongS).toBeGreaterThan(5);
  expect(heldTooLongS).toBeLessThan(40);
  expect(heldTooLongS!).toBeLessThan(stopByS);
  scene.act("flooded", { trayId: "t3" });
  scene.act("start-heat-set", { trayId: "t3", toolId: "oven-1" });
  const oven = scene.tray("t3").status;
  expect(oven.stage === "heat-set" && oven.heat.limits).not.toHaveProperty("heldTooLongS");
});
