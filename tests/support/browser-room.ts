import { DAY_AND_NIGHT } from "./scene.ts";

const HOUR_MS = 3_600_000;

/** What a lead enters: a rack, an oven, a hot-air tool, two designs, one order, and its trays. */
export const roomCommands = (trays: number, nowMs: number): object[] => [
  {
    type: "set-kitchen",
    settings: { name: "Tidepool Bakes", timeZone: "Europe/Lisbon", opening: DAY_AND_NIGHT },
  },
  {
    type: "put-place",
    place: { id: "rack-a", name: "Rack A", kind: "rack", airSpeedMs: 0.15, capacity: 400 },
  },
  {
    type: "put-place",
    place: { id: "oven", name: "Low oven", kind: "oven", airSpeedMs: 0.5, capacity: 4, setTempC: 65.6 },
  },
  {
    type: "put-tool",
    tool: {
      id: "hot-1",
      name: "Hot air 1",
      kind: "hot-air",
      airC: 270,
      maxAirC: 350,
      distanceCm: 14,
      nozzleMm: 25,
      capS: 180,
      coolDownMin: 10,
    },
  },
  {
    type: "put-tool",
    tool: {
      id: "oven-1",
      name: "Low oven",
      kind: "oven",
      placeId: "oven",
      airC: 65.6,
      maxAirC: 80,
      capS: 360,
      coolDownMin: 30,
    },
  },
  { type: "put-icing", icing: { id: "butter", name: "butter", hex: "#f2d16b" } },
  { type: "put-icing", icing: { id: "storm", name: "storm", hex: "#3b4152" } },
  {
    type: "put-design",
    design: {
      id: "moon",
      name: "Moon",
      sizeMm: 70,
      layers: [
        { name: "top", consistency: "top-coat", icingId: "butter", thicknessMm: 2.4, narrowestMm: 60 },
      ],
    },
  },
  {
    type: "put-design",
    design: {
      id: "lantern",
      name: "Lantern",
      sizeMm: 90,
      layers: [
        { name: "Flood", consistency: "flood", icingId: "butter", thicknessMm: 2.4, narrowestMm: 12 },
        { name: "Border", consistency: "detail", icingId: "storm", thicknessMm: 2, narrowestMm: 3 },
      ],
    },
  },
  {
    type: "put-order",
    order: { id: "party", name: "Tidepool party", pickUpAtMs: nowMs + 30 * HOUR_MS, cookies: trays * 3 },
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
