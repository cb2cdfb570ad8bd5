import { describe, expect, it } from "vitest";
import type { PlannedAct } from "#shared/kitchen/plan/acts.ts";
import { openFromMs } from "#shared/kitchen/model/opening-hours.ts";
import type { DayPlan } from "#shared/kitchen/plan/plan.ts";
import { aKitchen, band, HOUR, MIN, type Scene, T0 } from "../support/scene.ts";
import { HOT_AIR, OVEN_HEATER } from "../support/furnishings.ts";
import { TOO_DAMP } from "#tests/support/too-damp.ts";
import { minutes, planOf, surely } from "../support/plan-of.ts";

/** Acts as "number act layer start–end who", minutes from now. */
function say(scene: Scene, plan: DayPlan, trayId?: string): string[] {
  const min = (ms: number): number => Math.round((ms - scene.nowMs) / MIN);
  return plan.acts
    .filter((act) => trayId === undefined || act.trayId === trayId)
    .map(({ trayId: id, act, layer = "", startMs, endMs, who = "" }) =>
      `${scene.tray(id).number} ${act} ${layer} ${min(startMs)}–${min(endMs)} ${who}`.replaceAll("  ", " "),
    );
}

/** Only this one tray, in one pair of hands. */
function alone(trayId: string): Scene {
  const scene = aKitchen().as("ida", "lead");
  for (const other of ["t1", "t2", "t3"]) if (other !== trayId) scene.act("remove-tray", { trayId: other });
  scene.act("set-kitchen", { settings: { hands: 1, floodingMin: 10 } });
  return scene;
}

const done = (scene: Scene, trayId: string, layer: number, atMs: number): Scene =>
  scene.forecast(trayId, layer, { skin: band(atMs, 0), dryThrough: band(atMs, 0) });

describe("a tray's route", () => {
  it("K48 lays each layer when what it touches has come, and packs once all is dry through", () => {
    const scene = alone("t2");
    // One layer of ten cookies, a minute each; dry in four hours; a third of packing the order's 32.
    expect(say(scene, planOf(scene))).toEqual(["7 flood 0 0–10 ", "7 pack 250–256 "]);
  });

  it("K48 a layer waits for the skin or the dryness that it needs; one of its own icing follows at once", () => {
    const scene = alone("t1");
    const acts = say(scene, planOf(scene)).filter((line) => line.includes("flood"));
    // Lantern: outline and flood of one icing, then a border on the skin, then a dot on the dry top.
    expect(acts).toHaveLength(4);
    // The flood takes the two minutes of changing from the outline's consistency.
    expect(acts.slice(0, 2)).toEqual(["18 flood 0 0–10 ", "18 flood 1 10–22 "]);
    expect(acts[2]).toBe("18 flood 2 52–64 ");
    expect(acts[3]).toBe("18 flood 3 262–274 ");
  });

  it("K48 a section that sinks is set with hot air, cookie by cookie, in the same hands", () => {
    const scene = alone("t1");
    const heat = planOf(scene).acts.find(({ act }) => act === "heat");
    const lay = planOf(scene).acts.find(({ act, layer }) => act === "flood" && layer === heat?.layer);
    expect(heat).toMatchObject({ trayId: "t1", startMs: lay!.endMs, endMs: lay!.endMs + 24 * MIN });
  });

  it("K48 without hot air in service the oven sets it, as many trays at a time as it holds", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("tool-out-of-service", { toolId: HOT_AIR.id, reason: "broken" });
    for (const k of [1, 2, 3, 4])
      scene.act("add-trays", {
        trays: [
          { id: `x${k}`, number: 40 + k, designId: "lantern", orderId: "walk", count: 12, placeId: "rack-a" },
        ],
      });
    const heats = planOf(scene).acts.filter(({ act }) => act === "heat");
    expect(heats).toHaveLength(5);
    expect(new Set(heats.map(({ place, who }) => `${place} ${who}`))).toEqual(new Set(["oven undefined"]));
    for (const { startMs } of heats)
      expect(heats.filter((one) => one.startMs <= startMs && one.endMs > startMs).length).toBeLessThanOrEqual(
        2,
      );
  });

  it("K48 what is under way counts with what is left of it, in the hands that have it", () => {
    const scene = alone("t2").as("wren");
    scene.act("start-flooding", { trayId: "t2" });
    scene.later(6 * MIN);
    scene.forecast("t2", 0, { skin: band(T0 + 30 * MIN, 0), dryThrough: band(T0 + 4 * HOUR, 0) });
    expect(say(scene, planOf(scene))).toEqual(["7 flood 0 0–4 wren", "7 pack 244–250 wren"]);
  });

  it("K48 heat under way keeps its person and its tool for the cookies left", () => {
    const scene = alone("t2").as("wren");
    scene.act("flooded", { trayId: "t2" });
    done(scene, "t2", 0, T0 + HOUR);
    scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(MIN);
    expect(say(scene, planOf(scene))[0]).toBe("7 heat 0 0–19 wren");
    scene.act("hand-over-tool", { toolId: "hot-1", to: "sol" });
    expect(say(scene, planOf(scene))[0]).toBe("7 heat 0 0–19 sol");
  });

  it("K48 while the hot air waits for the next cookie, that one and those after it have all of their minutes to go", () => {
    const scene = alone("t2").as("wren");
    scene.act("flooded", { trayId: "t2" });
    done(scene, "t2", 0, T0 + HOUR);
    scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(2 * MIN).act("next-cookie", { trayId: "t2" });
    expect(say(scene.later(15 * MIN), planOf(scene))[0]).toBe("7 heat 0 0–18 wren");
    scene.act("heat-on", { trayId: "t2" });
    // A cookie that takes long takes nothing off the others.
    expect(say(scene.later(5 * MIN), planOf(scene))[0]).toMatch(/^7 heat 0 0–1[67] wren$/);
  });

  it("K31 what is in the oven at closing, or after it, is taken out when it has set, not at the next opening", () => {
    for (const untilClosing of [1 * MIN, -MIN]) {
      const scene = alone("t2")
        .as("wren")
        .later(11 * HOUR - untilClosing);
      scene.act("flooded", { trayId: "t2" });
      done(scene, "t2", 0, T0 + 12 * HOUR);
      scene.act("start-heat-set", { trayId: "t2", toolId: OVEN_HEATER.id });
      const [heat] = planOf(scene).acts as [PlannedAct];
      expect([heat.act, heat.startMs]).toEqual(["heat", scene.nowMs]);
      expect(heat.endMs).toBeLessThan(scene.nowMs + 10 * MIN);
    }
  });

  it("K48 a film that was found dry is not waited for", () => {
    const scene = alone("t2");
    scene.act("flooded", { trayId: "t2" });
    done(scene, "t2", 0, T0 + 5 * HOUR);
    expect(say(scene, planOf(scene))).toEqual(["7 pack 300–306 "]);
    done(scene, "t2", 0, T0 - HOUR);
    expect(say(scene, planOf(scene))).toEqual(["7 pack 0–6 "]);
  });
});

describe("hands and hours", () => {
  it("K49 a tray that was given to a person is done by that person", () => {
    const scene = aKitchen().as("ida", "lead");
    for (const trayId of ["t1", "t2", "t3"]) scene.act("assign-tray", { trayId, to: "sol" });
    const plan = planOf(scene);
    expect(new Set(plan.acts.map(({ who }) => who))).toEqual(new Set(["sol"]));
    const own = plan.acts.toSorted((a, b) => a.startMs - b.startMs);
    for (const [k, { startMs }] of own.entries())
      if (k > 0) expect(startMs).toBeGreaterThanOrEqual(own[k - 1]!.endMs);
  });

  it("K49 a tray given to somebody who was removed is anyone's", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("assign-tray", { trayId: "t2", to: "sol" });
    scene.act("remove-people", { personIds: ["sol"] });
    expect(planOf(scene).acts.every(({ who }) => who === "ida" || who === "wren")).toBe(true);
  });

  const week = (fromMin: number, toMin: number) => Array.from({ length: 7 }, () => ({ fromMin, toMin }));
  const never = Array.from({ length: 7 }, () => null);

  it("K55 a person is counted on in their own hours only, and a tray of theirs waits for these", () => {
    const scene = aKitchen().as("ida", "lead");
    // Lisbon's 11:00 to 15:00; it is 09:00.
    scene.act("set-hours", { personId: "sol", hours: week(11 * 60, 15 * 60) });
    const ofSol = (): PlannedAct[] => planOf(scene).acts.filter(({ who }) => who === "sol");
    for (const { startMs, endMs } of ofSol()) {
      expect(startMs).toBeGreaterThanOrEqual(T0 + 2 * HOUR);
      expect(endMs - T0).toBeLessThanOrEqual(30 * HOUR);
    }
    scene.act("assign-tray", { trayId: "t2", to: "sol" });
    const [lay, pack] = planOf(scene).acts.filter(({ trayId }) => trayId === "t2");
    expect(lay).toMatchObject({ who: "sol", startMs: T0 + 2 * HOUR });
    // Dry at 15:10, when Sol has gone: packed when Sol comes again.
    expect(pack).toMatchObject({ who: "sol", startMs: T0 + 26 * HOUR });
    // Ten minutes of packing before 15:00 the next day: to be laid before Sol goes today.
    expect(lay!.startByMs).toBe(T0 + 6 * HOUR - 10 * MIN);
    scene.act("set-hours", { personId: "sol", hours: null });
    expect(planOf(scene).acts.find(({ trayId }) => trayId === "t2")).toMatchObject({ startMs: T0 });
  });

  it("K55 a tray given to somebody who does not work is anyone's; who has it in hand finishes it", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("assign-tray", { trayId: "t2", to: "sol" });
    scene.act("set-hours", { personId: "sol", hours: never });
    expect(planOf(scene).acts.some(({ who }) => who === "sol")).toBe(false);
    expect(planOf(scene).acts.filter(({ trayId }) => trayId === "t2")).toHaveLength(2);
    scene.as("sol").act("start-flooding", { trayId: "t2" });
    done(scene, "t2", 0, T0 + 4 * HOUR);
    expect(planOf(scene).acts.find(({ trayId }) => trayId === "t2")).toMatchObject({ startMs: T0 });
  });

  it("K31 K32 nothing is begun while the kitchen is closed, nor what would not be done by closing; packing goes on", () => {
    const scene = alone("t2").later(10 * HOUR + 55 * MIN);
    // Lisbon's 19:55: it closes in five minutes, opens at 06:00.
    expect(say(scene, planOf(scene))[0]).toBe("7 flood 0 605–615 ");
    // To the minute, whatever the second it is planned at: never before the kitchen opens.
    for (const seconds of [20, 25])
      expect(planOf(scene.later(seconds * 1000)).acts[0]!.startMs).toBe(T0 + 21 * HOUR);
    scene.act("flooded", { trayId: "t2" });
    done(scene, "t2", 0, T0);
    const [pack] = planOf(scene).acts as [PlannedAct];
    expect([pack.startMs, pack.endMs - T0]).toEqual([scene.nowMs, 21 * HOUR + 2 * MIN]);
  });

  it("K33 a bench screen is no pair of hands, unless an old log does not say that it is one", () => {
    const scene = aKitchen();
    const bench = { id: "bench", name: "Bench 1", role: "decorator" };
    const hands = (): number => new Set(planOf(scene).acts.map(({ who }) => who)).size;
    scene.as("kitchen", "lead").role = "kitchen";
    scene.act("add-person", { person: { ...bench, isBench: true } });
    scene.as("ida", "lead").act("add-trays", {
      trays: [4, 5, 6].map((k) => ({
        id: `t${k}`,
        number: 90 + k,
        designId: "moon",
        orderId: "walk",
        count: 6,
        placeId: "rack-a",
      })),
    });
    expect(hands()).toBe(3);
    scene.as("kitchen", "lead").role = "kitchen";
    scene.act("add-person", { person: bench });
    expect(hands()).toBe(4);
  });

  it("K31 what is in hand after closing is finished by whoever stays; nothing follows it until opening", () => {
    const scene = alone("t2")
      .as("wren")
      .later(10 * HOUR + 58 * MIN);
    scene.act("start-flooding", { trayId: "t2" });
    done(scene, "t2", 0, T0 + 12 * HOUR);
    expect(say(scene, planOf(scene))[0]).toMatch(/^7 flood 0 0–10 /);
  });

  it("K48 changing icings takes the kitchen's minutes for it", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("remove-tray", { trayId: "t3" });
    scene.act("set-kitchen", { settings: { hands: 1, icingChangeMin: 7 } });
    const lastMs = (): number =>
      Math.max(
        ...planOf(scene)
          .acts.filter(({ act, layer }) => act === "flood" && layer === 0)
          .map(({ endMs }) => endMs),
      );
    const slow = lastMs();
    scene.act("set-kitchen", { settings: { icingChangeMin: 0 } });
    expect(slow - lastMs()).toBeGreaterThanOrEqual(7 * MIN);
  });
});

describe("heat for every wet layer", () => {
  /** Ten one-layer trays of six, hands for all. */
  function ten(): Scene {
    const scene = aKitchen().as("ida", "lead");
    for (const trayId of ["t1", "t2", "t3"]) scene.act("remove-tray", { trayId });
    scene.act("set-kitchen", { settings: { hands: 10, floodingMin: 10 } });
    scene.act("add-trays", {
      trays: Array.from({ length: 10 }, (_, k) => ({
        id: `n${k}`,
        number: 100 + k,
        designId: "moon",
        orderId: "walk",
        count: 6,
        placeId: "rack-a",
      })),
    });
    return scene;
  }
  const endsMin = (scene: Scene, by: "oven" | "hot-air"): number[] => {
    const heated = new Map(Object.keys(scene.kitchen.trays).map((trayId) => [trayId, by]));
    const plan = planOf(scene, undefined, { heated });
    return plan.acts
      .filter(({ act }) => act === "heat")
      .map(({ endMs }) => (endMs - T0) / MIN)
      .toSorted((a, b) => a - b);
  };

  it("D32 an oven sets as many trays at a time as it holds: the last of ten waits four rounds more than one alone", () => {
    expect(endsMin(ten(), "oven")).toEqual([15, 15, 20, 20, 25, 25, 30, 30, 35, 35]);
  });

  it("D32 under hot air the cookies of all trays come one after another", () => {
    // Ten minutes to lay, twelve under the one tool, tray by tray.
    expect(endsMin(ten(), "hot-air")).toEqual(Array.from({ length: 10 }, (_, k) => 22 * (k + 1)));
  });
});

describe("start by", () => {
  it("K50 is the latest moment within opening hours from which the order is likely met", () => {
    const scene = alone("t2");
    const [lay, pack] = planOf(scene).acts as [PlannedAct, PlannedAct];
    // Thirty hours on; six minutes to pack, four hours to dry, ten minutes to lay.
    expect(pack.startByMs).toBe(T0 + 30 * HOUR - 6 * MIN);
    expect(lay.startByMs).toBe(T0 + 30 * HOUR - 6 * MIN - 4 * HOUR - 10 * MIN);
    // With twelve hours to dry it has to be laid before tonight's closing at 20:00.
    const [slow] = planOf(scene, () => ({ skin: surely(30), dryThrough: surely(720) })).acts as [PlannedAct];
    expect(slow.startByMs).toBe(T0 + 11 * HOUR - 10 * MIN);
  });

  it("K57 of an order that no day like this meets is now", () => {
    const scene = alone("t2").as("ida", "lead");
    const { orderId } = scene.tray("t2");
    const order = scene.kitchen.orders[orderId]!;
    const startBy = (pickUpAtMs: number): (number | undefined)[] => {
      scene.act("put-order", {
        order: { id: orderId, name: order.name, cookies: order.cookies, pickUpAtMs },
      });
      const plan = planOf(scene);
      const all = plan.acts.map(({ startByMs }) => startByMs);
      return plan.orders[orderId]?.chance === 0 ? all : [];
    };
    // Ten minutes to lay, four hours to dry, six to pack: dry in time, but with no hands before then.
    expect(startBy(T0 + 5 * HOUR)).toEqual([]);
    expect(startBy(T0 + 4 * HOUR)).toEqual([T0 - 16 * MIN, T0]);
  });

  it("K50 goes before the likeliest time where films may be slow", () => {
    const scene = alone("t2");
    const doubtful = minutes(200, 240, 480);
    const [lay] = planOf(scene, () => ({ skin: surely(30), dryThrough: doubtful })).acts as [PlannedAct];
    expect(lay.startByMs).toBeLessThan(T0 + 30 * HOUR - 6 * MIN - 5 * HOUR - 10 * MIN);
  });
});

describe("an instance with no way through", () => {
  it("K54 icing that never dries has its reason, and holds nobody up", () => {
    const scene = aKitchen();
    const never = { never: TOO_DAMP };
    const plan = planOf(scene, ({ id }) =>
      id === "t1" ? { skin: never, dryThrough: never } : { skin: surely(30), dryThrough: surely(240) },
    );
    expect(plan.trays["t1"]).toEqual(never);
    expect(plan.orders["walk"]).toMatchObject({ finish: never, chance: 0 });
    expect(plan.acts.filter(({ trayId, act }) => trayId === "t2" && act === "pack")).toHaveLength(1);
  });

  it("K54 a kitchen nobody joined has one pair of hands; one that never opens counts as open", () => {
    const scene = aKitchen();
    scene.kitchen = { ...scene.kitchen, people: {} };
    expect(planOf(scene).acts.length).toBeGreaterThan(5);
    expect(planOf(scene).without).toEqual(["hands"]);
    scene.kitchen = {
      ...scene.kitchen,
      settings: { ...scene.kitchen.settings, opening: Array.from({ length: 7 }, () => null) },
    };
    expect(planOf(scene).acts[0]?.startMs).toBe(T0);
    expect(planOf(scene).without).toEqual(["hands", "opening hours"]);
    expect(planOf(aKitchen()).without).toEqual([]);
    const alone = aKitchen().as("ida", "lead");
    const off = Array.from({ length: 7 }, () => null);
    for (const personId of ["ida", "wren", "sol"]) alone.act("set-hours", { personId, hours: off });
    expect(planOf(alone).without).toEqual(["hands"]);
    expect(planOf(alone).acts.length).toBeGreaterThan(5);
  });

  it("K54 a layer longer than the kitchen is ever open goes on over closing; an order in the past is late", () => {
    const scene = alone("t2");
    const day = { fromMin: 9 * 60, toMin: 10 * 60 };
    scene.act("set-kitchen", {
      settings: { floodingMin: 110, opening: Array.from({ length: 7 }, () => day), timeZone: "UTC" },
    });
    scene.later(40 * HOUR);
    const plan = planOf(scene);
    // 110 minutes in two openings of an hour, the first of them tomorrow's.
    const opensMs = openFromMs(scene.kitchen.settings, scene.nowMs);
    expect(plan.acts.map(({ act, startMs }) => [act, startMs > opensMs])).toEqual([
      ["flood", false],
      ["pack", true],
    ]);
    expect(plan.acts[0]).toMatchObject({ startMs: opensMs, endMs: opensMs + 24 * HOUR + 50 * MIN });
    expect(plan.orders["walk"]).toMatchObject({ chance: 0 });
    expect(plan.orders["walk"]!.spareMin).toBeLessThan(0);
  });

  it("K54 a board with no trays has an empty plan", () => {
    const scene = aKitchen();
    scene.kitchen = { ...scene.kitchen, trays: {} };
    expect(planOf(scene)).toMatchObject({ acts: [], trays: {}, orders: {} });
  });
});
