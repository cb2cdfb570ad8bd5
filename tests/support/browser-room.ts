import { DAY_AND_NIGHT, design, HOT_AIR, icing, layer, OVEN, OVEN_HEATER, rack } from "./furnishings.ts";
import { HOUR } from "./scene.ts";

/** What a lead enters: a rack, an oven, a hot-air tool, two designs, one order, and its trays. */
export const roomCommands = (trays: number, nowMs: number): object[] => [
  {
    type: "set-kitchen",
    settings: { name: "Tidepool Bakes", timeZone: "Europe/Lisbon", opening: DAY_AND_NIGHT },
  },
  { type: "put-place", place: rack("rack-a", "Rack A", { capacity: 400 }) },
  { type: "put-place", place: { ...OVEN, capacity: 4 } },
  { type: "put-tool", tool: { ...HOT_AIR, name: "Hot air 1", distanceCm: 14, nozzleMm: 25 } },
  { type: "put-tool", tool: OVEN_HEATER },
  { type: "put-icing", icing: icing("butter") },
  { type: "put-icing", icing: icing("storm") },
  {
    type: "put-design",
    design: design("moon", "Moon", 70, [layer("top", "top-coat", "butter", { narrowestMm: 60 })]),
  },
  {
    type: "put-design",
    design: design("lantern", "Lantern", 90, [
      layer("Flood", "flood", "butter", { narrowestMm: 12 }),
      layer("Border", "detail", "storm", { narrowestMm: 3 }),
    ]),
  },
  {
    type: "put-order",
    order: { id: "party", name: "Tidepool party", pickUpAtMs: nowMs + 30 * HOUR, cookies: trays * 3 },
  },
  ...Array.from({ length: Math.ceil(trays / MOST_AT_ONCE) }, (_, batch) => ({
    type: "add-trays",
    trays: Array.from({ length: Math.min(MOST_AT_ONCE, trays - batch * MOST_AT_ONCE) }, (_, k) =>
      tray(batch * MOST_AT_ONCE + k + 1),
    ),
  })),
];

const MOST_AT_ONCE = 100;

/** Odd ones have one layer, even ones two. */
const tray = (number: number) => ({
  id: `t${number}`,
  number,
  designId: number % 2 === 1 ? "moon" : "lantern",
  orderId: "party",
  count: 3,
  placeId: "rack-a",
  slot: String(number),
});
