import { TOO_DAMP } from "#tests/support/too-damp.ts";
import { said } from "#tests/support/alert-words.ts";
import { describe, expect, it } from "vitest";
import type { OrderForecast } from "#shared/kitchen/model/forecast.ts";
import { dueNow, dueOf, tend, tendThrough } from "../support/alerting.ts";
import { DAY_AND_NIGHT } from "../support/furnishings.ts";
import { aKitchen, band, HOUR, MIN, type Scene, T0 } from "../support/scene.ts";

/** The order's outlook as the server would have it. */
function spare(scene: Scene, spareMin: number, spareWorstMin = spareMin, orderId = "walk"): Scene {
  const outlook: OrderForecast = { finish: band(scene.nowMs + HOUR), spareMin, spareWorstMin };
  scene.forecasts = { ...scene.forecasts, orders: { ...scene.forecasts.orders, [orderId]: outlook } };
  return scene;
}

describe("pick-up at risk", () => {
  it("A17 is a prompt to leads and wall when the likeliest finish misses it", () => {
    expect(dueNow(spare(aKitchen(), 0))).toEqual([]);
    expect(dueNow(spare(aKitchen(), -1))).toMatchObject([
      {
        kind: "pick-up-at-risk",
        class: "prompt",
        orderId: "walk",
        recipients: { leads: true, wall: true, everyone: false },
      },
    ]);
    expect(said(aKitchen().kitchen, dueNow(spare(aKitchen(), -1))[0])).toContain("Lantern Walk: ");
  });

  it("A17 is a note for the wall when only the latest finish misses it", () => {
    expect(dueNow(spare(aKitchen(), 90, -1))).toMatchObject([
      { kind: "pick-up-at-risk", class: "note", recipients: { leads: false, wall: true } },
    ]);
  });

  it("A17 icing that never dries is a prompt as well", () => {
    const scene = aKitchen();
    scene.forecasts = { ...scene.forecasts, orders: { walk: { finish: { never: TOO_DAMP } } } };
    expect(dueNow(scene)).toMatchObject([{ kind: "pick-up-at-risk", class: "prompt" }]);
  });

  it("A21 about the threshold it is raised once, and clears with more than five minutes to spare", () => {
    const scene = spare(aKitchen(), -1);
    const [raised] = tend(scene).raised;
    for (const minutes of [0, -2, 4, 1, -1])
      expect(tend(spare(scene, minutes))).toEqual({ raised: [], cleared: [] });
    expect(tend(spare(scene, 5)).cleared).toEqual([raised]);
    expect(tend(spare(scene, 4)).raised).toEqual([]);
  });

  it("A1 a note that becomes a prompt is raised anew: others are told", () => {
    const scene = spare(aKitchen(), 10, -10);
    const [note] = tend(scene).raised;
    const worse = tend(spare(scene, -10, -60));
    expect(worse.cleared).toEqual([note]);
    expect(worse.raised).toHaveLength(1);
  });

  it("A20 a bad hour tells the leads of three orders, the wall of all; who was told stays told", () => {
    const scene = aKitchen().as("ida", "lead");
    const names = ["a", "b", "c", "d", "e"];
    for (const [k, name] of names.entries()) {
      scene.act("put-order", { order: { id: name, name, pickUpAtMs: T0 + (k + 1) * HOUR, cookies: 10 } });
      spare(scene, -30, -60, name);
    }
    expect(dueNow(scene).map(({ recipients }) => recipients.leads)).toEqual([true, true, true, false, false]);
    expect(dueNow(scene).every(({ recipients }) => recipients.wall)).toBe(true);
    tend(scene);
    spare(scene, 60, 60, "a");
    const after = tend(scene);
    expect(after.cleared).toHaveLength(1);
    expect(after.raised).toEqual([]);
  });

  it("an order with no outlook yet asks nothing, and one that stands stays", () => {
    const scene = aKitchen();
    expect(dueNow(scene)).toEqual([]);
    tend(spare(scene, -5));
    scene.forecasts = { ...scene.forecasts, orders: {} };
    expect(tend(scene)).toEqual({ raised: [], cleared: [] });
  });
});

describe("a pick-up that hands must save", () => {
  /** An order of moons, with trays of ten of which so many are flooded at 09:00 and so many of those packed, pick-up in so many hours. */
  function ordered(cookies: number, trays: number, flooded: number, packed: number, pickUpH: number): Scene {
    const scene = aKitchen().as("ida", "lead");
    scene.act("set-kitchen", { settings: { opening: DAY_AND_NIGHT } });
    scene.act("put-order", {
      order: { id: "own", name: "Own", pickUpAtMs: T0 + pickUpH * HOUR, cookies },
    });
    for (let k = 0; k < trays; k += 1) {
      const tray = { id: `o${k}`, number: 60 + k, designId: "moon", orderId: "own", count: 10 };
      scene.act("add-trays", { trays: [{ ...tray, placeId: "rack-a" }] });
      if (k < flooded) scene.act("flooded", { trayId: tray.id });
    }
    scene.later(4 * HOUR);
    for (let k = 0; k < packed; k += 1) scene.act("pack", { trayId: `o${k}`, acceptRisk: true });
    return scene;
  }

  it("A19 of an order that is packed nothing is told, late as it was, nor of a tray beyond what was ordered", () => {
    expect(dueNow(spare(ordered(10, 1, 1, 1, 3), -60, -60, "own"))).toEqual([]);
    expect(dueNow(spare(ordered(20, 3, 3, 2, 3), -60, -60, "own"))).toEqual([]);
    expect(dueNow(spare(ordered(30, 3, 3, 2, 3), -60, -60, "own"))).toHaveLength(1);
  });

  it("A17 what only waits to be packed is to be packed: no heat helps it, and a pick-up that has passed was missed", () => {
    const scene = ordered(10, 1, 1, 0, 5);
    scene.forecast("o0", 0, { dryThrough: band(scene.nowMs + MIN, 0) });
    const [wet] = dueNow(spare(scene, -1, -1, "own"));
    expect(said(scene.kitchen, wet)).toMatch(
      /^Own: Likely to miss its pick-up \| See what would help \| A fan,/,
    );
    expect(tend(scene).raised).toEqual([wet?.key]);
    scene.act("touch-test", { trayId: "o0", finding: "firm" });
    const [dry] = dueNow(scene);
    expect(said(scene.kitchen, dry)).toMatch(/^Own: Likely to miss its pick-up \| Pack it \| It is dry/);
    expect(tend(scene)).toEqual({ raised: [dry?.key], cleared: [wet?.key] });
    // Within five minutes of enough it stands, and is raised once.
    expect(tend(spare(scene, 3, 3, "own"))).toEqual({ raised: [], cleared: [] });
    scene.later(2 * HOUR);
    expect(dueNow(spare(scene, -80, -80, "own"))[0]).toMatchObject({ risk: { is: "late", hasMissed: true } });
  });

  it("A17 past its latest, with no touch, it is to be checked first", () => {
    const scene = ordered(10, 1, 1, 0, 3);
    scene.forecast("o0", 0, { dryThrough: band(scene.nowMs - HOUR) });
    expect(dueNow(spare(scene, -60, -60, "own"))[0]).toMatchObject({ risk: { help: "touch, then pack" } });
  });

  it("A18 cookies on no tray that can no longer be ready are told to leads and wall", () => {
    // Flooding 10 min and packing 20 min: half an hour before the pick-up it is the last moment to begin.
    const scene = ordered(100, 1, 1, 1, 5).later(30 * MIN);
    expect(dueNow(spare(scene, 60, 60, "own"))).toEqual([]);
    scene.later(MIN);
    const [raised] = dueNow(scene);
    expect(raised).toMatchObject({
      kind: "pick-up-at-risk",
      class: "prompt",
      risk: { is: "not on trays", cookies: 90 },
      recipients: { leads: true, wall: true },
    });
    expect(tend(scene).raised).toEqual([raised?.key]);
    for (const _ of [1, 2, 3]) expect(tend(scene.later(HOUR))).toEqual({ raised: [], cleared: [] });
  });

  it("A18 A19 an order with no tray at all is told of, until two days after its pick-up", () => {
    const scene = ordered(100, 0, 0, 0, 4);
    expect(said(scene.kitchen, dueNow(scene)[0])).toMatch(/^Own: 100 cookies not on trays yet/);
    expect(tend(scene).raised).toHaveLength(1);
    expect(tend(scene.later(48 * HOUR)).cleared).toEqual([]);
    expect(tend(scene.later(1)).cleared).toHaveLength(1);
  });

  it("A20 a bad hour of orders on no tray tells the leads of three", () => {
    const scene = ordered(100, 0, 0, 0, 4);
    for (const name of ["a", "b", "c"])
      scene.act("put-order", { order: { id: name, name, pickUpAtMs: scene.nowMs, cookies: 10 } });
    expect(dueNow(scene).map(({ recipients }) => recipients.leads)).toEqual([true, true, true, false]);
  });
});

describe("waiting long", () => {
  /** t2 dry through and waiting to be packed since 09:00, in Lisbon on a Monday. */
  function waiting(spareMin: number): Scene {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.later(HOUR).act("touch-test", { trayId: "t2", finding: "firm" });
    return spare(scene, spareMin);
  }

  it.each([
    [20, 10],
    [120, 30],
    [239, 59.75],
  ])("with %d min to spare a tray may wait %d min for hands", (spareMin, waitMin) => {
    const scene = waiting(spareMin);
    expect(dueOf(scene.later(waitMin * MIN), "waiting-long")).toEqual([]);
    expect(dueOf(scene.later(1), "waiting-long")).toMatchObject([
      { class: "prompt", orderId: "walk", recipients: { leads: true, wall: true, people: [] } },
    ]);
  });

  it("an order that is late already is short of time, not near it", () => {
    const hurry = (spareMin: number) => dueOf(waiting(spareMin).later(HOUR), "waiting-long")[0];
    expect(hurry(-660)).toMatchObject({ hurry: { is: "short of time" } });
    expect(hurry(20)).toMatchObject({ hurry: { is: "little to spare" } });
  });

  it("with four hours to spare nothing is in a hurry", () => {
    expect(dueOf(waiting(240).later(5 * HOUR), "waiting-long")).toEqual([]);
  });

  it("A1 A20 is one alert an order, named after all its trays that wait", () => {
    const scene = waiting(20);
    scene.act("flooded", { trayId: "t3" });
    scene.later(5 * MIN).act("touch-test", { trayId: "t3", finding: "firm" });
    const raised = tendThrough(scene, HOUR, MIN);
    expect(raised).toHaveLength(1);
    expect(said(scene.kitchen, dueOf(scene, "waiting-long")[0])).toContain("Trays 7 and 8");
    scene.act("pack", { trayId: "t2" });
    expect(tend(scene)).toEqual({ raised: [], cleared: [] });
    scene.act("pack", { trayId: "t3" });
    expect(tend(scene).cleared).toEqual(raised);
  });

  it("queued trays wait for their turn, not for hands", () => {
    const scene = spare(aKitchen(), 20);
    expect(dueOf(scene.later(3 * HOUR), "waiting-long")).toEqual([]);
  });

  it("A21 K34 midnight is no opening where nothing closed: a wait goes on over it", () => {
    const scene = waiting(100);
    scene.as("ida", "lead").act("set-kitchen", { settings: { opening: DAY_AND_NIGHT } });
    scene.nowMs = Date.UTC(2026, 4, 4, 22, 0);
    expect(tend(spare(scene, 100)).raised).toHaveLength(1);
    for (; scene.nowMs < Date.UTC(2026, 4, 5, 0, 0); scene.later(5 * MIN))
      expect(tend(spare(scene, 100))).toEqual({ raised: [], cleared: [] });
  });

  it("K36 what must be packed before closing can wait only until then", () => {
    // t2 is found firm at 17:00; the kitchen is open 06:00 to 20:00, the pick-up at 06:00, packing takes 20 min.
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-order", { order: { id: "walk", name: "Walk", pickUpAtMs: T0 + 21 * HOUR, cookies: 32 } });
    scene.act("flooded", { trayId: "t2" });
    scene.later(8 * HOUR).act("touch-test", { trayId: "t2", finding: "firm" });
    const finish = band(scene.nowMs, 0);
    const at = (min: number) => {
      scene.nowMs = T0 + 8 * HOUR + min * MIN;
      const spareMin = 13 * 60 - min - 20;
      scene.forecasts = { ...scene.forecasts, orders: { walk: { finish, spareMin } } };
      return dueOf(scene, "waiting-long");
    };
    // At 17:33 2 h 7 min are left to begin, a quarter of which is less than the 33 min it has waited.
    expect([at(31), at(33).map((alert) => said(scene.kitchen, alert))]).toEqual([
      [],
      [expect.stringContaining("The order must be packed before 20:00")],
    ]);
  });

  it("outside opening hours nobody is told, and a night does not count as waiting", () => {
    const scene = waiting(20);
    scene.as("ida", "lead");
    const day = { fromMin: 8 * 60, toMin: 18 * 60 };
    scene.act("set-kitchen", { settings: { opening: [day, day, day, day, day, null, null] } });
    // Lisbon keeps summer time in May: UTC + 1. Monday 18:00 local is 17:00 UTC.
    scene.nowMs = Date.UTC(2026, 4, 4, 17, 1);
    expect(dueOf(scene, "waiting-long")).toEqual([]);
    scene.nowMs = Date.UTC(2026, 4, 5, 7, 5);
    expect(dueOf(scene, "waiting-long")).toEqual([]);
    scene.nowMs = Date.UTC(2026, 4, 5, 7, 11);
    expect(dueOf(scene, "waiting-long")).toHaveLength(1);
  });
});
