import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { HOUR, MIN, type Scene, aKitchen, id } from "./scene.ts";

/** A busy moment as Wren's phone sees it: every kind of card, one heat-set, an order that may be short, an alert. */
export interface BusyBoard {
  kitchen: Kitchen;
  forecasts: Forecasts;
  nowMs: number;
}

export function busyBoard(): BusyBoard {
  const scene = aKitchen();
  scene.as("ida", "lead");
  scene.act("put-icing", { icing: { id: "coral", name: "coral", hex: "#e2725b" } });
  const tray = (number: number, designId: string, slot: string) => ({
    id: `n${number}`,
    number,
    designId,
    orderId: "walk",
    count: 12,
    placeId: "rack-a",
    slot,
  });
  scene.act("put-order", {
    order: {
      id: "club",
      name: "Puffin Club",
      pickUpAtMs: scene.nowMs + 9 * HOUR,
      cookies: 48,
      allergens: "egg, wheat, milk",
    },
  });
  scene.act("add-trays", {
    trays: [
      tray(41, "moon", "1"),
      tray(5, "lantern", "2"),
      tray(27, "lantern", "4"),
      tray(10, "moon", "5"),
      tray(26, "lantern", "7"),
      tray(33, "moon", "8"),
      { ...tray(50, "lantern", "9"), orderId: "club" },
      { ...tray(51, "lantern", "10"), orderId: "club" },
    ],
  });
  scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22.4, rhPct: 58, source: "sensor" } });
  scene.as("wren");
  const flooded = (trayId: string): string => scene.act("flooded", { trayId });
  const far = 20 * HOUR;

  flooded("n10");
  for (const trayId of ["t1", "n5", "n27", "n26"]) flooded(trayId);
  scene.later(2 * MIN);
  for (const trayId of ["t1", "n5", "n27", "n26"]) flooded(trayId);
  flooded("t2");
  flooded("n33");
  scene.later(58 * MIN);
  const nowMs = scene.nowMs;
  const skin = (trayId: string, from: number, likely: number, to: number): Scene => {
    const at = (minutes: number): number => nowMs + minutes * MIN;
    for (const layer of [0, 1])
      scene.forecast(trayId, layer, {
        skin: { earliestMs: at(from), likelyMs: at(likely), latestMs: at(to) },
        dryThrough: { earliestMs: nowMs + far * 0.8, likelyMs: nowMs + far, latestMs: nowMs + far * 1.3 },
      });
    return scene;
  };
  skin("t1", -20, -0.4, 20);
  skin("n5", 4, 7, 10);
  skin("n27", 18, 27, 38);
  skin("n26", -9, -3, 6);
  const dry = (trayId: string, from: number, likely: number, to: number): Scene =>
    scene.forecast(trayId, 0, {
      skin: { earliestMs: nowMs - 50 * MIN, likelyMs: nowMs - 40 * MIN, latestMs: nowMs - 30 * MIN },
      dryThrough: {
        earliestMs: nowMs + from * MIN,
        likelyMs: nowMs + likely * MIN,
        latestMs: nowMs + to * MIN,
      },
    });
  dry("t2", -40, -12, 30);
  dry("n10", 150, 210, 270);
  scene.forecast("n33", 0, {
    skin: { never: { code: "no-drying", rhPct: 88, limitPct: 85 } },
    dryThrough: { never: { code: "no-drying", rhPct: 88, limitPct: 85 } },
  });
  scene.act("start-flooding", { trayId: "n41" });
  scene.forecast("n41", 0, {
    skin: { earliestMs: nowMs + 3 * MIN, likelyMs: nowMs + 5 * MIN, latestMs: nowMs + 7 * MIN },
  });
  scene.act("start-heat-set", { trayId: "n26", toolId: "hot-1" });
  scene.by = "kitchen";
  scene.role = "kitchen";
  const span = { earliestMs: 45 * MIN, likelyMs: 80 * MIN, latestMs: 130 * MIN };
  const dryThrough = { earliestMs: 600 * MIN, likelyMs: 840 * MIN, latestMs: 1100 * MIN };
  const finish = { earliestMs: nowMs + 22 * HOUR, likelyMs: nowMs + 25 * HOUR, latestMs: nowMs + 29 * HOUR };
  const forecasts: Forecasts = {
    ...scene.forecasts,
    atMs: nowMs,
    trays: {
      t1: {
        finish,
        next: {
          layer: 2,
          skin: span,
          dryThrough,
          sink: { risk: "most", setWithinMin: 6, floodBeforeSetting: 3 },
        },
      },
    },
    orders: {
      walk: { finish, spareMin: 220, spareWorstMin: -20 },
      club: { finish, spareMin: -90, spareWorstMin: -300 },
    },
    places: {
      "rack-a": {
        placeId: id("rack-a"),
        air: { tempC: 22.4, rhPct: 58, atMs: nowMs - 12 * MIN, ageMin: 12 },
        basis: "measured",
        films: [
          { consistency: "flood", thicknessMm: 2.4, skin: span, dryThrough },
          { consistency: "top-coat", thicknessMm: 2.4, skin: span, dryThrough },
        ],
      },
    },
  };
  return { kitchen: scene.kitchen, forecasts, nowMs };
}
