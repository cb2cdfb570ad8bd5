import type { Consistency, Design, Icing, Layer, Place } from "#shared/kitchen/model/vocabulary.ts";
import { asId } from "#shared/ids.ts";

/** What every test kitchen is furnished from: one definition a thing, changed by the test that wants it otherwise. */

/** Opening hours under which no test's outcome hangs on the hour. */
export const DAY_AND_NIGHT = Array.from({ length: 7 }, () => ({ fromMin: 0, toMin: 1440 }));

export const rack = (id: string, name: string, more: Partial<Place> = {}): Place => ({
  id: asId(id),
  name,
  kind: "rack",
  airSpeedMs: 0.15,
  capacity: 20,
  ...more,
});

export const FAN_RACK = rack("fan", "Fan rack", { kind: "fan-rack", airSpeedMs: 2, capacity: 2 });
export const CABINET = rack("cabinet", "Warm cabinet", {
  kind: "warm-cabinet",
  airSpeedMs: 2,
  capacity: 6,
  setTempC: 38,
});
export const OVEN = rack("oven", "Low oven", { kind: "oven", airSpeedMs: 0.5, capacity: 2, setTempC: 65.6 });

export const HOT_AIR = {
  id: "hot-1",
  name: "Hot-air tool 1",
  kind: "hot-air",
  airC: 270,
  maxAirC: 350,
  capS: 180,
  coolDownMin: 10,
};

export const OVEN_HEATER = {
  id: "oven-1",
  name: "Low oven",
  kind: "oven",
  placeId: "oven",
  airC: 65.6,
  maxAirC: 80,
  capS: 360,
  coolDownMin: 30,
};

/** What warms the cabinet; a test puts it in where it wants one. */
export const CABINET_HEATER = {
  id: "warm",
  name: "Cabinet heater",
  kind: "warm-cabinet",
  placeId: "cabinet",
  airC: 38,
  maxAirC: 45,
  capS: 14_400,
  coolDownMin: 10,
};

const HEXES = {
  "sea-glass": "#8fc7c3",
  storm: "#3d4a63",
  butter: "#e8cf83",
  milk: "#f4efe4",
  coral: "#e08a73",
  "old-rose": "#c98b8b",
} as const;

export const icing = (id: keyof typeof HEXES, more: Partial<Icing> = {}): Icing => ({
  id: asId(id),
  name: id.replace("-", " "),
  hex: HEXES[id],
  ...more,
});

export const layer = (
  name: string,
  consistency: Consistency,
  icingId: string,
  more: Partial<Layer> = {},
): Layer => ({
  name,
  consistency,
  icingId: asId(icingId),
  thicknessMm: consistency === "outline" ? 3 : consistency === "detail" ? 2 : 2.4,
  narrowestMm: 40,
  ...more,
});

export const design = (id: string, name: string, sizeMm: number, layers: Layer[]): Design => ({
  id: asId(id),
  name,
  sizeMm,
  layers,
});

/** Sea-glass flood outlined in its own icing, a storm border, a butter dot on the dry top. */
export const LANTERN = design("lantern", "Lantern", 80, [
  layer("outline", "outline", "sea-glass"),
  layer("body", "flood", "sea-glass"),
  layer("border", "flood", "storm", { narrowestMm: 9 }),
  layer("dot", "detail", "butter", { narrowestMm: 4, waits: [{ layer: 1, need: "dry through" }] }),
]);

/** A plain one-layer round. */
export const MOON = design("moon", "Moon", 65, [layer("top", "top-coat", "storm")]);
