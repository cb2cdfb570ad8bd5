import { said, wordsOf } from "#tests/support/alert-words.ts";
import { describe, expect, it } from "vitest";
import type { PersonId } from "#shared/ids.ts";
import type { AlertKind } from "#shared/kitchen/model/alert.ts";
import type { Recipients } from "#shared/kitchen/model/alert-kinds.ts";
import type { HeatSet } from "#shared/kitchen/model/state.ts";
import { wallAlerts } from "#display/model/wall-alerts.ts";
import { dueNow, dueOf, tend, tendThrough } from "../support/alerting.ts";
import { CABINET_HEATER } from "../support/furnishings.ts";
import { aKitchen, HOUR, id, MIN, type Scene } from "../support/scene.ts";

const heatOf = (scene: Scene, trayId = "t2"): HeatSet => {
  const { status } = scene.tray(trayId);
  if (status.stage !== "heat-set") throw new Error("not under heat");
  return status.heat;
};

/** t2 under hot air by Wren, at this share of its stop-by. */
function underHotAir(share: number): Scene {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t2" });
  scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
  return scene.later(share * 1000 * heatOf(scene).limits.stopByS);
}

describe("heat near its stop", () => {
  it("A2 warns the holder alone from 80 % of stop-by", () => {
    expect(dueOf(underHotAir(0.799), "heat-near-stop")).toEqual([]);
    expect(dueOf(underHotAir(0.801), "heat-near-stop")).toMatchObject([
      {
        class: "prompt",
        trayNumber: 7,
        recipients: { people: ["wren"], wall: false, everyone: false, leads: false },
      },
    ]);
  });

  it("A8 with the holder's phone lost the wall speaks at once, and says whose it is and until when", () => {
    const scene = underHotAir(0.1);
    expect(dueNow(scene)).toEqual([]);
    scene.lostPeople = new Set(["wren"]);
    const [alert] = dueOf(scene, "heat-unwatched");
    expect(alert).toMatchObject({ class: "prompt", trayNumber: 7, recipients: { wall: true, people: [] } });
    expect(said(scene.kitchen, alert)).toMatch(
      /^Phone offline or muted \| Watch this heat \| Stop by \d:\d\d, touch it from \d:\d\d \| Wren · Hot-air tool 1$/,
    );
    tend(scene);
    expect(wallAlerts(wordsOf(scene.kitchen), scene.kitchen)).toMatchObject([
      {
        trayNumber: 7,
        head: "Watch this heat",
        body: expect.stringMatching(
          /^Wren · Hot-air tool 1 · Phone offline or muted · Stop by \d:\d\d, touch it from \d:\d\d$/,
        ),
      },
    ]);
    scene.lostPeople = new Set();
    expect(tend(scene.later(1000))).toEqual({ raised: [], cleared: [] });
  });

  it("A8 of a film that had likely skinned before its heat the wall says to touch now, not from 0:00", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.later(9 * HOUR).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(3000).nextCookie("t2");
    expect(heatOf(scene).limits.checkFromS).toBe(0);
    scene.lostPeople = new Set(["wren"]);
    expect(said(scene.kitchen, dueOf(scene, "heat-unwatched")[0])).toContain("Stop by 0:20, touch it now");
  });

  it("A12 of a warm cabinet, where hours overheat nothing, the wall does not", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-tool", { tool: CABINET_HEATER });
    scene.act("flooded", { trayId: "t2" });
    scene.act("start-heat-set", { trayId: "t2", toolId: "warm" });
    scene.lostPeople = new Set(["ida"]);
    expect(dueNow(scene.later(10_000))).toEqual([]);
  });

  it("A5 A11 once its tool is handed over, the heat is the taker's: they are warned, and their phone counts", () => {
    const scene = underHotAir(0.85);
    scene.act("hand-over-tool", { toolId: "hot-1", to: "sol" });
    scene.lostPeople = new Set(["wren"]);
    expect(dueNow(scene)).toMatchObject([
      { kind: "heat-near-stop", recipients: { people: ["sol"], wall: false } },
    ]);
  });

  it("A9 with the holder's phone lost the wall takes over from 80 %, with the leads, and says whose it is", () => {
    const scene = underHotAir(0.85);
    scene.lostPeople = new Set(["wren"]);
    const [alert] = dueOf(scene, "heat-near-stop");
    expect(alert?.recipients).toMatchObject({ wall: true, leads: true });
    expect(said(scene.kitchen, alert)).toContain("Wren · Hot-air tool 1");
  });

  it("A8 A21 a phone that comes and goes does not make the wall flicker", () => {
    const scene = underHotAir(0.85);
    scene.lostPeople = new Set(["wren"]);
    expect(tend(scene).raised).toHaveLength(1);
    scene.lostPeople = new Set();
    expect(tend(scene.later(1000))).toEqual({ raised: [], cleared: [] });
  });

  it("someone else's lost phone changes nothing", () => {
    const scene = underHotAir(0.85);
    scene.lostPeople = new Set(["sol"]);
    expect(dueOf(scene, "heat-near-stop")[0]?.recipients.wall).toBe(false);
  });
});

describe("heat running long", () => {
  it("A2 past stop-by it is urgent for holder, wall and everyone, and the warning gives way to it", () => {
    expect(dueOf(underHotAir(0.999), "heat-running-long")).toEqual([]);
    const scene = underHotAir(1);
    expect(dueNow(scene).map(({ kind }) => kind)).toEqual(["heat-running-long"]);
    expect(dueNow(scene)).toMatchObject([
      {
        class: "urgent",
        recipients: { people: ["wren"], wall: true, everyone: true, leads: false },
        sinceMs: heatOf(scene).lapFromMs,
      },
    ]);
  });

  it("A2 A6 a minute later it is the leads' as well, raised anew", () => {
    const scene = underHotAir(1);
    const [before] = tend(scene).raised;
    scene.later(MIN - 1);
    expect(tend(scene).raised).toEqual([]);
    const after = tend(scene.later(1));
    expect(after.cleared).toEqual([before]);
    expect(after.raised).toHaveLength(1);
    expect(dueOf(scene, "heat-running-long")[0]).toMatchObject({
      recipients: { leads: true, everyone: true },
    });
    expect(said(scene.kitchen, dueOf(scene, "heat-running-long")[0])).toContain("Ida: go and end it");
    expect(wallAlerts(wordsOf(scene.kitchen), scene.kitchen)).toMatchObject([
      {
        head: "Stop the heat",
        body: "Wren · Hot-air tool 1 · Over a minute too long · Ida: go and end it",
      },
    ]);
  });

  it("A1 fires once for one lap, and clears when the heat ends", () => {
    const scene = underHotAir(0);
    const raised = tendThrough(scene, 6 * MIN, 1000);
    expect(raised.filter((key) => key.startsWith("heat-running-long"))).toHaveLength(2);
    scene.act("end-heat-set", { trayId: "t2", result: "set" });
    expect(tend(scene).cleared).toEqual([expect.stringMatching(/^heat-running-long:.*:leads$/)]);
  });

  it("H1 A2 each cookie's lap counts from its own start, and is a matter of its own", () => {
    const scene = underHotAir(1);
    const [first] = tend(scene).raised;
    scene.nextCookie("t2");
    expect(dueNow(scene)).toEqual([]);
    scene.later(1000 * heatOf(scene).limits.stopByS);
    const [second] = dueOf(scene, "heat-running-long");
    expect(second?.key).not.toBe(first);
  });

  it("A13 the cap alone makes it urgent, however late the stop-by says", () => {
    const scene = underHotAir(0);
    const tray = scene.tray("t2");
    if (tray.status.stage !== "heat-set") throw new Error("not under heat");
    const heat = { ...tray.status.heat, limits: { ...tray.status.heat.limits, stopByS: 9999, capS: 60 } };
    scene.kitchen = {
      ...scene.kitchen,
      trays: { ...scene.kitchen.trays, t2: { ...tray, status: { ...tray.status, heat } } },
    };
    expect(dueOf(scene.later(59_000), "heat-running-long")).toEqual([]);
    expect(dueOf(scene.later(1000), "heat-running-long")).toHaveLength(1);
  });
});

describe("alerts of heat that is handed over", () => {
  const handOver = (scene: Scene, to: string): void => {
    scene.later(500).act("hand-over-tool", { toolId: "hot-1", to });
  };
  const toldOf = (scene: Scene, kind: AlertKind): Recipients[] =>
    Object.values(scene.kitchen.alerts).flatMap((alert) => (alert.kind === kind ? alert.recipients : []));

  it("A4 A5 near its stop, whoever takes the tool is warned, and the one before no more", () => {
    const scene = underHotAir(0.85);
    const before = tend(scene).raised;
    handOver(scene, "sol");
    const { raised, cleared } = tend(scene);
    expect(cleared).toEqual(before);
    expect(raised).toHaveLength(1);
    expect(toldOf(scene, "heat-near-stop")).toMatchObject([{ people: ["sol"], wall: false }]);
    expect(tend(scene.later(1000))).toEqual({ raised: [], cleared: [] });
    handOver(scene, "wren");
    expect(tend(scene).raised).toEqual(before);
    expect(toldOf(scene, "heat-near-stop")).toMatchObject([{ people: ["wren"] }]);
  });

  it("A5 the touch that is due is the taker's", () => {
    const scene = underHotAir(0);
    tend(scene.later(1000 * heatOf(scene).limits.checkFromS + 1));
    expect(toldOf(scene, "set-check-by-touch")).toMatchObject([{ people: ["wren"] }]);
    handOver(scene, "sol");
    tend(scene);
    expect(toldOf(scene, "set-check-by-touch")).toMatchObject([{ people: ["sol"] }]);
  });

  it.each([0.1, 0.85])(
    "A11 at %d of stop-by the wall gives a lost phone's heat to a taker whose phone is there",
    (share) => {
      const scene = underHotAir(share);
      scene.lostPeople = new Set(["wren"]);
      tend(scene);
      expect(wallAlerts(wordsOf(scene.kitchen), scene.kitchen)).toHaveLength(1);
      handOver(scene, "sol");
      tend(scene);
      expect(wallAlerts(wordsOf(scene.kitchen), scene.kitchen)).toEqual([]);
      scene.lostPeople = new Set(["wren", "sol"]);
      tend(scene.later(500));
      expect(Object.values(scene.kitchen.alerts)).toMatchObject([
        { recipients: { wall: true }, holderId: "sol" },
      ]);
    },
  );

  it.each([1, 1.5])("A2 A5 at %d of stop-by what everyone is told names the taker", (share) => {
    const scene = underHotAir(share);
    const before = tend(scene).raised;
    handOver(scene, "sol");
    expect(tend(scene).cleared).toEqual(before);
    expect(Object.values(scene.kitchen.alerts)).toMatchObject([
      {
        kind: "heat-running-long",
        holderId: "sol",
        recipients: { everyone: true },
      },
    ]);
  });

  it("A1 A15 a tool left on is told to whoever has it now, once each", () => {
    const scene = aKitchen();
    scene.act("tool-on", { toolId: "hot-1" });
    expect(tend(scene.later(4 * MIN)).raised).toEqual([`tool-left-on:hot-1:${scene.nowMs - 4 * MIN}`]);
    handOver(scene, "sol");
    expect(tend(scene)).toMatchObject({ raised: [expect.any(String)], cleared: [expect.any(String)] });
    expect(toldOf(scene, "tool-left-on")).toMatchObject([{ people: ["sol"], wall: true, leads: true }]);
    expect(said(scene.kitchen, Object.values(scene.kitchen.alerts)[0])).toBe(
      "Hot-air tool 1: On with no tray under it | Switch it off | Or say that it is still in use | Sol · Hot-air tool 1",
    );
    expect(tend(scene.later(MIN))).toEqual({ raised: [], cleared: [] });
  });
});

describe("heat alerts with long names", () => {
  const LONG = "Bartholomew-Maximilian by the north door";
  const longNamed = (share: number): Scene => {
    const scene = underHotAir(share);
    const { people, tools } = scene.kitchen;
    scene.kitchen = {
      ...scene.kitchen,
      people: { ...people, wren: { ...people["wren"]!, name: LONG } },
      tools: { ...tools, "hot-1": { ...tools["hot-1"]!, name: LONG } },
    };
    scene.lostPeople = new Set(["wren"]);
    return scene;
  };

  it.each([
    ["unwatched", 0.1, /\| Stop by \d:\d\d, touch it from \d:\d\d \| Barth/],
    ["near its stop", 0.85, /\| Stop by \d:\d\d\. Phone offline or muted \| Barth/],
  ])("A8 %s, what to do comes before names that do not fit", (_, share, words) => {
    const scene = longNamed(share);
    expect(said(scene.kitchen, dueNow(scene)[0])).toMatch(words);
  });

  it.each([
    [["Bea"], "Ida or Bea"],
    [["Bea", "Cleo"], "Ida, Bea, Cleo"],
    [[LONG, "Cleo", "Dorothea", "Eve"], `Ida, ${LONG}, Cleo +2`],
    [[LONG, LONG], `Ida, ${LONG} +1`],
  ])("A6 leads %j besides Ida are named, as many as fit", (leads, words) => {
    const scene = longNamed(1);
    const people = leads.map((name, k) => [
      `lead-${k}`,
      { id: id<PersonId>(`lead-${k}`), name, role: "lead" as const },
    ]);
    scene.kitchen = { ...scene.kitchen, people: { ...scene.kitchen.people, ...Object.fromEntries(people) } };
    const [alert] = dueOf(scene.later(MIN), "heat-running-long");
    expect(said(scene.kitchen, alert)).toContain(`| ${words}: go and end it |`);
  });
});

describe("check by touch", () => {
  it("tells the holder from check-from on, until the warning takes its place", () => {
    const scene = underHotAir(0);
    const { checkFromS, stopByS } = heatOf(scene).limits;
    expect(checkFromS).toBeLessThan(0.8 * stopByS);
    scene.later(1000 * checkFromS - 500);
    expect(dueNow(scene)).toEqual([]);
    expect(dueOf(scene.later(1000), "set-check-by-touch")).toMatchObject([
      { class: "prompt", recipients: { people: ["wren"], wall: false } },
    ]);
    scene.later(1000 * (0.8 * stopByS - checkFromS));
    expect(dueNow(scene).map(({ kind }) => kind)).toEqual(["heat-near-stop"]);
  });

  it("A8 with the holder's phone lost the wall tells them", () => {
    const scene = underHotAir(0);
    scene.lostPeople = new Set(["wren"]);
    const [alert] = dueOf(scene.later(1000 * heatOf(scene).limits.checkFromS + 1), "set-check-by-touch");
    expect(alert?.recipients).toMatchObject({ wall: true, people: ["wren"] });
    expect(said(scene.kitchen, alert)).toContain("Wren");
  });

  it("comes with the first cookie only, not a dozen times a tray", () => {
    const scene = underHotAir(0);
    const { checkFromS } = heatOf(scene).limits;
    const lap = (): string[] => {
      const raised = tendThrough(scene, 1000 * (checkFromS + 5), 1000);
      scene.nextCookie("t2");
      return raised;
    };
    expect([...lap(), ...lap(), ...lap()]).toHaveLength(1);
  });
});

describe("a tool left on", () => {
  it("A15 is urgent once its minutes are over, for holder, wall and leads", () => {
    const scene = aKitchen();
    scene.act("tool-on", { toolId: "hot-1" });
    expect(dueNow(scene.later(3 * MIN - 1))).toEqual([]);
    expect(dueOf(scene.later(1), "tool-left-on")).toMatchObject([
      {
        class: "urgent",
        toolId: "hot-1",
        recipients: { people: ["wren"], wall: true, leads: true, everyone: false },
      },
    ]);
  });

  it("A15 a tray under it, saying it is still in use, and switching it off each end that", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(2 * MIN);
    expect(dueOf(scene, "tool-left-on")).toEqual([]);
    scene.act("end-heat-set", { trayId: "t2", result: "set" });
    expect(dueOf(scene.later(3 * MIN), "tool-left-on")).toHaveLength(1);
    scene.act("tool-still-in-use", { toolId: "hot-1" });
    expect(dueOf(scene, "tool-left-on")).toEqual([]);
    expect(dueOf(scene.later(3 * MIN), "tool-left-on")).toHaveLength(1);
    scene.act("tool-off", { toolId: "hot-1" });
    expect(dueOf(scene, "tool-left-on")).toEqual([]);
  });

  it("A15 a tool whose heat-set was taken back at its start is left on", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    const actId = scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(5000).act("take-back", { trayId: "t2", actId });
    expect(dueNow(scene.later(3 * MIN))).toMatchObject([
      { kind: "tool-left-on", recipients: { people: ["wren"] } },
    ]);
  });

  it("A15 the minutes are the kitchen's own setting", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("set-kitchen", { settings: { toolIdleMin: 10 } });
    scene.act("tool-on", { toolId: "hot-1" });
    expect(dueNow(scene.later(9 * MIN))).toEqual([]);
    expect(dueNow(scene.later(MIN))).toHaveLength(1);
  });

  it.each([
    ["moved", (scene: Scene) => scene.act("move-tray", { trayId: "t2", placeId: "rack-a" })],
    ["packed", (scene: Scene) => scene.act("pack", { trayId: "t2", acceptRisk: true })],
  ])("A15 a warm cabinet with trays standing in it is not idle, and is once they are %s", (_, empty) => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-tool", { tool: CABINET_HEATER });
    scene.act("flooded", { trayId: "t2" });
    scene.act("move-tray", { trayId: "t2", placeId: "cabinet" });
    expect(scene.kitchen.tools["warm"]?.use.status).toBe("on");
    expect(dueOf(scene.later(HOUR), "tool-left-on")).toEqual([]);
    empty(scene);
    expect(dueOf(scene.later(2 * MIN), "tool-left-on")).toEqual([]);
    expect(dueOf(scene.later(MIN), "tool-left-on")).toHaveLength(1);
  });
});

describe("an oven too hot", () => {
  const hot = (tempC: number): Scene => {
    const scene = aKitchen();
    scene.act("tool-on", { toolId: "oven-1" });
    scene.act("read-tool-temperature", { toolId: "oven-1", tempC });
    return scene;
  };

  it("is urgent above the tool's limit, for holder and wall", () => {
    expect(dueOf(hot(80), "oven-too-hot")).toEqual([]);
    expect(dueOf(hot(81), "oven-too-hot")).toMatchObject([
      { class: "urgent", toolId: "oven-1", recipients: { people: ["wren"], wall: true, everyone: false } },
    ]);
  });

  it("A26 is told to each whose tray is in it, once, and to whoever took their heat", () => {
    const scene = aKitchen();
    for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
    scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    scene.as("sol").act("start-heat-set", { trayId: "t3", toolId: "oven-1" });
    scene.act("read-tool-temperature", { toolId: "oven-1", tempC: 90 });
    expect(dueOf(scene, "oven-too-hot")).toMatchObject([
      { recipients: { people: ["sol", "wren"], wall: true, leads: false } },
    ]);
    const [raised] = tend(scene).raised;
    scene.later(20_000).act("end-heat-set", { trayId: "t2", result: "not yet" });
    expect(tend(scene)).toEqual({ raised: [], cleared: [] });
    scene.later(1000).act("hand-over-tool", { toolId: "oven-1", to: "ida" });
    expect(tend(scene).cleared).toEqual([raised]);
    expect(Object.values(scene.kitchen.alerts)).toMatchObject([{ recipients: { people: ["ida"] } }]);
  });

  it.each([
    ["typed", "read-tool-temperature", { toolId: "oven-1", tempC: 66 }],
    ["sent", "enter-reading", { reading: { placeId: "oven", tempC: 66, rhPct: 5, source: "sensor" } }],
  ] as const)(
    "H11 H12 A25 read too hot either way, a later reading within its limit that was %s answers for it",
    (_, type, answer) => {
      for (const [first, fields] of [
        ["read-tool-temperature", { toolId: "oven-1", tempC: 90 }],
        ["enter-reading", { reading: { placeId: "oven", tempC: 90, rhPct: 5, source: "sensor" } }],
      ] as const) {
        const scene = aKitchen();
        scene.act("flooded", { trayId: "t2" });
        scene.act(first, fields as never);
        const start = { trayId: "t2", toolId: "oven-1" };
        expect(scene.ask("start-heat-set", start).ok).toBe(false);
        expect(tend(scene).raised).toHaveLength(1);
        const earlierMs = scene.nowMs - MIN;
        scene.act(type, { ...answer, atMs: earlierMs });
        expect(scene.ask("start-heat-set", start).ok).toBe(false);
        scene.later(MIN).act(type, answer as never);
        expect(tend(scene).cleared).toHaveLength(1);
        expect(scene.ask("start-heat-set", start).ok).toBe(true);
      }
    },
  );

  it("A25 goes by the latest reading, though a hotter one within the limit came before it the other way", () => {
    const scene = hot(90);
    tend(scene);
    scene.later(MIN).act("read-tool-temperature", { toolId: "oven-1", tempC: 79 });
    expect(tend(scene).cleared).toEqual([]);
    const reading = { placeId: "oven", tempC: 66, rhPct: 5, source: "sensor" };
    scene.later(MIN).act("enter-reading", { reading });
    expect(tend(scene).cleared).toHaveLength(1);
  });

  it("H3 what was read too hot of late counts for its trays, though it was read lower since", () => {
    const hotMs = (readC: number): number => {
      const scene = aKitchen();
      scene.act("flooded", { trayId: "t2" });
      scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
      scene.later(MIN).act("enter-reading", {
        reading: { placeId: "oven", tempC: readC, rhPct: 5, source: "sensor" },
      });
      scene.later(MIN).act("read-tool-temperature", { toolId: "oven-1", tempC: 66 });
      scene.act("end-heat-set", { trayId: "t2", result: "set" });
      return (scene.tray("t2").hotUntilMs ?? 0) - scene.nowMs;
    };
    expect(hotMs(110)).toBeGreaterThan(hotMs(66));
  });

  it("goes by the hygrometer inside as well", () => {
    const scene = hot(70);
    scene.act("enter-reading", { reading: { placeId: "oven", tempC: 84, rhPct: 5, source: "sensor" } });
    expect(dueOf(scene, "oven-too-hot")).toHaveLength(1);
  });

  it("A21 stays until it is 2 °C below, whatever is read between, and keeps its key", () => {
    const scene = hot(81);
    const [raised] = tend(scene).raised;
    const reread = (tempC: number): ReturnType<typeof tend> => {
      scene.later(MIN).act("read-tool-temperature", { toolId: "oven-1", tempC });
      return tend(scene);
    };
    expect(reread(90).raised).toEqual([]);
    expect(reread(79)).toEqual({ raised: [], cleared: [] });
    expect(reread(78).cleared).toContain(raised);
  });

  it("A25 stands, however old its reading, until a later one at or below the limit", () => {
    const scene = hot(90);
    tend(scene);
    expect(tend(scene.later(5 * HOUR)).cleared.filter((key) => key.startsWith("oven"))).toEqual([]);
    expect(dueOf(scene, "oven-too-hot")).toHaveLength(1);
    scene.act("enter-reading", { reading: { placeId: "oven", tempC: 66, rhPct: 5, source: "sensor" } });
    expect(dueOf(scene, "oven-too-hot")).toEqual([]);
  });

  it("A25 said off, an oven is told of once more only when it is read too hot after that", () => {
    const off = hot(90);
    off.act("tool-off", { toolId: "oven-1" });
    expect(dueOf(off, "oven-too-hot")).toEqual([]);
    off.later(MIN).act("tool-on", { toolId: "oven-1" });
    expect(dueOf(off.later(30 * MIN), "oven-too-hot")).toEqual([]);
    off.act("tool-off", { toolId: "oven-1" });
    off.later(MIN).act("read-tool-temperature", { toolId: "oven-1", tempC: 150 });
    expect(dueOf(off, "oven-too-hot")).toMatchObject([
      { recipients: { wall: true, leads: true, people: [] } },
    ]);
  });

  it("A25 an oven that nobody tapped on, read too hot, is told to the wall and the leads, and stays told once it is", () => {
    const scene = aKitchen();
    scene.act("read-tool-temperature", { toolId: "oven-1", tempC: 150 });
    expect(dueOf(scene, "oven-too-hot")).toMatchObject([
      { class: "urgent", toolId: "oven-1", recipients: { wall: true, leads: true, people: [] } },
    ]);
    scene.later(MIN).act("tool-on", { toolId: "oven-1" });
    expect(dueOf(scene.later(40 * MIN), "oven-too-hot")).toMatchObject([
      { recipients: { people: ["wren"] } },
    ]);
  });

  it("A25 an older reading that lands late does not take a newer one's place", () => {
    const scene = aKitchen();
    const earlierMs = scene.nowMs;
    scene.later(MIN).act("read-tool-temperature", { toolId: "oven-1", tempC: 150 });
    scene.act("read-tool-temperature", { toolId: "oven-1", tempC: 66, atMs: earlierMs });
    expect(dueOf(scene, "oven-too-hot")).toHaveLength(1);
  });
});

it("C11 out of an oven a tray is taken with dry mitts before it is touched", () => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t2" });
  scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
  const { limits } = heatOf(scene);
  const [check] = dueOf(scene.later(1000 * limits.checkFromS + 1), "set-check-by-touch");
  expect(said(scene.kitchen, check)).toContain("Take it out with dry mitts, then touch an edge lightly");
  const [near] = dueOf(scene.later(1000 * (0.8 * limits.stopByS - limits.checkFromS)), "heat-near-stop");
  expect(said(scene.kitchen, near)).toMatch(/Take it out \| With dry mitts, then touch it\. Stop by \d:\d\d/);
});
