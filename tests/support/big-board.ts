import { evolve } from "#shared/kitchen/events/evolve.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { rack } from "./furnishings.ts";
import { aKitchen, HOUR, MIN, type Scene, T0 } from "./scene.ts";

/** A busy room floods a tray of 300 in this time, and so each layer in two hours. */
const FLOOD_EVERY_MS = 24_000;
const LAYER_MS = 130 * MIN;
const LAYERS_LAID = 3;
const READ_EVERY_MS = 5 * MIN;
const READ_BEFORE_MS = 48 * HOUR;

/**
 * A big board: so many Lantern trays on one rack, three layers laid on each in six hours, two days of five-minute
 * readings behind them.
 * Events are folded straight in, so that no decision costs time here.
 */
export function bigBoard(trays: number): Scene {
  const scene = aKitchen();
  scene.as("ida", "lead");
  scene.act("put-place", { place: rack("rack-a", "Rack A", { capacity: 400 }) });
  const fold = (event: object): void => {
    scene.kitchen = evolve(scene.kitchen, event as unknown as KitchenEvent);
    scene.events.push(event as unknown as KitchenEvent);
  };
  const plan = { designId: "lantern", orderId: "walk", count: 12, placeId: "rack-a" };
  for (let k = 0; k < trays; k += 1)
    fold({
      type: "tray-added",
      atMs: T0,
      by: "ida",
      actId: `a${k}`,
      plan: { ...plan, id: `x${k}`, number: 100 + k },
    });
  for (let k = 0; k * READ_EVERY_MS < READ_BEFORE_MS + LAYERS_LAID * LAYER_MS; k += 1) {
    const reading = {
      placeId: "rack-a",
      tempC: Math.round(10 * (22 + Math.sin(k / 20))) / 10,
      rhPct: Math.round(10 * (46 + 5 * Math.sin(k / 30) + Math.sin(7 * k))) / 10,
      source: "sensor",
    };
    fold({
      type: "reading-taken",
      atMs: T0 - READ_BEFORE_MS + k * READ_EVERY_MS,
      by: "kitchen",
      actId: `r${k}`,
      reading,
    });
  }
  for (let layer = 0; layer < LAYERS_LAID; layer += 1) {
    for (let k = 0; k < trays; k += 1) {
      const stamp = { atMs: scene.nowMs + k * FLOOD_EVERY_MS, by: "wren", actId: `f${layer}-${k}` };
      fold({ type: "flooded", ...stamp, trayId: `x${k}`, layer, weighed: [] });
    }
    scene.later(LAYER_MS);
  }
  return scene.as("wren");
}
