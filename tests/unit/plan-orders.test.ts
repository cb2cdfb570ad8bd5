import { describe, expect, it } from "vitest";
import type { OrderForecast } from "#shared/kitchen/model/forecast.ts";
import { aKitchen, band, HOUR, MIN, type Scene, T0 } from "../support/scene.ts";
import { minutes, planOf, surely } from "../support/plan-of.ts";

const outlook = (scene: Scene, spans?: Parameters<typeof planOf>[1]): OrderForecast =>
  planOf(scene, spans).orders["walk"]!;

/** All three trays laid, dry at these moments from now. */
function drying(...hours: [number, number, number]): Scene {
  const scene = aKitchen();
  for (const [k, trayId] of ["t1", "t2", "t3"].entries()) {
    const layers = trayId === "t1" ? 4 : 1;
    for (let layer = 0; layer < layers; layer += 1) {
      scene.forecast(trayId, layer, { skin: band(T0, 0), dryThrough: band(T0, 0) });
      scene.act("flooded", { trayId });
    }
    scene.forecast(trayId, layers - 1, { skin: band(T0, 0), dryThrough: band(T0 + hours[k]! * HOUR, 0) });
  }
  return scene;
}

describe("an order by the plan", () => {
  it("K47 finishes with its last tray; spare is what is left before pick-up once that is packed", () => {
    // Pick-up at 30 h; the last tray of ten takes 6¼ of the 20 minutes of packing 32 cookies.
    expect(outlook(drying(2, 10, 3))).toMatchObject({
      finish: { earliestMs: T0 + 10 * HOUR, likelyMs: T0 + 10 * HOUR, latestMs: T0 + 10 * HOUR },
      packed: { likelyMs: T0 + 10 * HOUR + 6 * MIN },
      spareMin: 20 * 60 - 6,
      spareWorstMin: 20 * 60 - 6,
      chance: 1,
      hangsOn: { trays: [7], because: { is: "drying", layer: 0 } },
    });
  });

  it("K31 dry in the night it is packed once the kitchen opens", () => {
    const { packed, finish } = outlook(drying(2, 14, 3));
    expect(finish).toMatchObject({ likelyMs: T0 + 14 * HOUR });
    expect(packed?.likelyMs).toBe(T0 + 21 * HOUR + 6 * MIN);
  });

  it("K51 late only because the kitchen closes, it says when it closes", () => {
    const scene = drying(2, 14, 3).as("ida", "lead");
    const pickUp = (atMs: number): OrderForecast => {
      scene.act("put-order", {
        order: { id: "walk", name: "Lantern Walk", pickUpAtMs: atMs, cookies: 32 },
      });
      return outlook(scene);
    };
    // Dry at 23:00, picked up at 01:00 or at 06:03; closed from 20:00, T0 being 09:00.
    for (const atMs of [T0 + 16 * HOUR, T0 + 21 * HOUR + 3 * MIN])
      expect(pickUp(atMs)).toMatchObject({ chance: 0, closedAtMs: T0 + 11 * HOUR });
    // To the minute, whatever the second it is planned at.
    scene.later(20_000);
    expect(pickUp(T0 + 16 * HOUR).closedAtMs).toBe(T0 + 11 * HOUR);
    expect(pickUp(T0 + 13 * HOUR).closedAtMs).toBeUndefined();
    expect(pickUp(T0 + 30 * HOUR).closedAtMs).toBeUndefined();
  });

  it("K47 its chance is the share of days on which it is packed in time", () => {
    const scene = aKitchen().as("ida", "lead");
    for (const trayId of ["t1", "t3"]) scene.act("remove-tray", { trayId });
    const chanceBy = (pickUpAtMs: number): number => {
      scene.act("put-order", { order: { id: "walk", name: "Lantern Walk", pickUpAtMs, cookies: 10 } });
      const doubtful = minutes(120, 240, 480);
      return outlook(scene, () => ({ skin: surely(30), dryThrough: doubtful })).chance!;
    };
    const [early, middle, late] = [120, 240, 480].map((min) => chanceBy(T0 + (10 + min + 20) * MIN));
    expect(early).toBeCloseTo(0.1, 1);
    expect(middle).toBeCloseTo(0.5, 1);
    expect(late).toBeCloseTo(0.9, 1);
  });

  it("K47 with many trays the likely time is later than any one tray's, as far as they do not hang together", () => {
    const scene = aKitchen().as("ida", "lead");
    const doubtful = minutes(120, 240, 480);
    for (const trayId of ["t1", "t3"]) scene.act("remove-tray", { trayId });
    scene.act("set-kitchen", { settings: { hands: 12 } });
    const likelyMin = (): number => {
      const { finish } = outlook(scene, () => ({ skin: surely(30), dryThrough: doubtful }));
      return "never" in finish ? Infinity : (finish.likelyMs - T0) / MIN;
    };
    const one = likelyMin();
    scene.act("add-trays", {
      trays: Array.from({ length: 11 }, (_, k) => ({
        id: `m${k}`,
        number: 60 + k,
        designId: "moon",
        orderId: "walk",
        count: 10,
        placeId: "rack-a",
      })),
    });
    const twelve = likelyMin();
    expect(twelve).toBeGreaterThan(1.1 * one);
    // Twelve films of their own would be at their eleventh twelfth, 2.1 times as late: they share kitchen, icing, place and bowl.
    expect(twelve).toBeLessThan(1.8 * one);
  });

  it("K47 the same board has the same promise, and another tray moves no draw of the first", () => {
    const scene = aKitchen();
    const doubtful = minutes(120, 240, 480);
    const spans = () => ({ skin: surely(30), dryThrough: doubtful });
    expect(outlook(scene, spans)).toEqual(outlook(scene, spans));
    const before = planOf(scene, spans).trays["t2"];
    scene.as("ida", "lead").act("add-trays", {
      trays: [{ id: "n1", number: 99, designId: "moon", orderId: "walk", count: 10, placeId: "rack-a" }],
    });
    scene.act("set-kitchen", { settings: { hands: 9 } });
    const alone = planOf(scene, spans).trays["t2"];
    expect(alone).toEqual(before);
  });

  it("K47 is unknown while a film of it has no forecast, and where it has no trays", () => {
    const scene = drying(2, 3, 4);
    scene.forecasts = { ...scene.forecasts, films: {} };
    expect(planOf(scene).orders).toEqual({});
    scene.kitchen = { ...scene.kitchen, trays: {} };
    expect(planOf(scene).orders).toEqual({});
  });

  it("K47 a tray beyond what was ordered is not waited for once that is packed", () => {
    const scene = aKitchen();
    const packed = { stage: "packed" as const, atMs: T0 + HOUR, by: "kitchen" as const };
    const { t2, t3 } = scene.kitchen.trays;
    const order = scene.kitchen.orders["walk"]!;
    const ordered = (cookies: number): OrderForecast => {
      scene.kitchen = {
        ...scene.kitchen,
        orders: { walk: { ...order, cookies } },
        trays: { t2: { ...t2!, status: packed }, t3: t3! },
      };
      return outlook(scene.later(0), () => ({ skin: surely(30), dryThrough: surely(40 * 60) }));
    };
    expect(ordered(10)).toMatchObject({ spareMin: 29 * 60, chance: 1, packed: { likelyMs: T0 + HOUR } });
    expect(ordered(11).spareMin).toBeLessThan(0);
  });

  it("K47 it hangs on hands where these are what is short, on a tray's own work where that takes longest, on hot air where that is", () => {
    const because = (hands: number, floodingMin: number, alone = false): unknown => {
      const scene = aKitchen().as("ida", "lead");
      const opening = Array.from({ length: 7 }, () => null);
      scene.act("set-kitchen", { settings: { hands, floodingMin, icingChangeMin: 0, opening } });
      if (alone) for (const trayId of ["t1", "t3"]) scene.act("remove-tray", { trayId });
      else
        scene.act("add-trays", {
          trays: [1, 2, 3, 4].map((k) => ({
            id: `more-${k}`,
            number: 60 + k,
            designId: "lantern",
            orderId: "walk",
            count: 12,
            placeId: "rack-a",
          })),
        });
      return outlook(scene, () => ({ skin: surely(1), dryThrough: surely(2) })).hangsOn?.because;
    };
    expect(because(1, 60, true)).toEqual({ is: "work", act: "flood", layer: 0 });
    expect(because(1, 60)).toMatchObject({ is: "hands", act: "flood" });
    // With hands enough for all, five Lanterns wait for the one hot-air tool.
    expect(because(9, 1)).toEqual({ is: "tool", act: "flood", layer: 2 });
  });
});
