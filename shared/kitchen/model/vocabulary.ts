import * as v from "valibot";
import { READING_RANGE } from "#shared/drying/air-record/readings.ts";
import {
  between,
  flag,
  hexColour,
  line,
  list,
  moment,
  mustBe,
  oneOf,
  whole,
  within,
} from "#shared/fields.ts";
import { TOOL_BOUNDS, type ToolField } from "#shared/heat/tool.ts";
import { BatchId, DesignId, IcingId, OrderId, PersonId, PlaceId, ToolId, TrayId } from "#shared/ids.ts";
import { MqttSettings } from "./mqtt-settings.ts";

/** The nouns of the kitchen as schemas: each shape is defined once, and is both what is sent and what is stored. */

export const Role = oneOf(["lead", "decorator", "wall", "sensor"]);
export type Role = v.InferOutput<typeof Role>;

export const Consistency = oneOf(["outline", "top-coat", "flood", "detail"]);
export type Consistency = v.InferOutput<typeof Consistency>;

export const Stage = oneOf(["queued", "flooding", "heat-set", "crusting", "full-dry", "packed"]);
export type Stage = v.InferOutput<typeof Stage>;

/** What a layer must wait for on an earlier layer it touches. */
export const Need = oneOf(["wet", "skin", "dry through"]);
export type Need = v.InferOutput<typeof Need>;

export const TouchFinding = oneOf(["still wet", "skinned", "firm"]);
export type TouchFinding = v.InferOutput<typeof TouchFinding>;

export const ProblemKind = oneOf([
  "bled",
  "sunk",
  "cracked",
  "swollen",
  "dented",
  "smeared",
  "burned",
  "broken",
]);
export type ProblemKind = v.InferOutput<typeof ProblemKind>;

export const PlaceKind = oneOf(["rack", "fan-rack", "warm-cabinet", "oven", "bench"]);
export type PlaceKind = v.InferOutput<typeof PlaceKind>;

export const ToolKind = oneOf(["hot-air", "oven", "warm-cabinet"]);
export type ToolKind = v.InferOutput<typeof ToolKind>;

export const HeatResult = oneOf(["set", "not yet", "swollen or cracked"]);
export type HeatResult = v.InferOutput<typeof HeatResult>;

const TimeZone = v.pipe(
  v.string(mustBe("a time zone")),
  v.maxLength(60, mustBe("a time zone")),
  v.check((name) => isTimeZone(name), mustBe("a time zone")),
);

function isTimeZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat("en-GB", { timeZone: name }).resolvedOptions().timeZone !== "";
  } catch {
    return false;
  }
}

/** Minutes after midnight, kitchen time. */
const dayMinute = whole(0, 1440);
const waterPct = between(8, 35, "% water");

/** Kitchen-wide settings a lead edits. */
export const Settings = v.object({
  name: line(60),
  units: oneOf(["metric", "us"]),
  timeZone: TimeZone,
  /** Opening hours by minutes after midnight, Monday first, over the night where they close sooner; null on a closed day. */
  opening: v.pipe(
    v.array(
      v.nullable(
        v.pipe(
          v.object({ fromMin: dayMinute, toMin: dayMinute }),
          v.check((day) => day.toMin !== day.fromMin, mustBe("another time")),
        ),
      ),
    ),
    v.length(7, mustBe("seven days")),
  ),
  wall: v.object({ diagonalCm: between(25, 300, "cm"), farthestM: between(1, 15, "m") }),
  /** Water by consistency, % of the icing's mass. */
  waterPct: v.object({ outline: waterPct, "top-coat": waterPct, flood: waterPct, detail: waterPct }),
  densityKgM3: between(900, 1600, "kg/m³"),
  icingLimitC: between(45, 70, "°C"),
  /** Share of the predicted skin time within which a sinking section is set. */
  sinkShare: between(0.05, 0.9),
  floodingMin: between(0.5, 120, "min"),
  packingMin: between(0, 240, "min"),
  /** How many ice at once; null or absent where that is everyone who joined. */
  hands: v.optional(v.nullable(whole(1, 60))),
  toolIdleMin: between(1, 30, "min"),
  /** Icing left in bags and bowls, % of what is on the cookies. */
  wastePct: v.optional(between(0, 100, "%")),
  /** Icing is used within so many hours of mixing, by the kitchen's own plan; null or absent where it names none. */
  icingUseH: v.optional(v.nullable(between(1, 336, "h"))),
  houseRules: list(line(140), "rules", 12, 0),
  /** Hygrometers by MQTT; null once switched off. */
  mqtt: v.optional(v.nullable(MqttSettings)),
});
export type Settings = v.InferOutput<typeof Settings>;

export const Person = v.object({
  id: PersonId,
  name: line(40),
  role: Role,
  /** A screen that anyone at the bench taps: no pair of hands of its own. Logs from before it was told lack it. */
  isBench: v.optional(flag),
  /** Since when they are gone: kept so that what they did goes on bearing their name. */
  leftAtMs: v.optional(moment),
});
export type Person = v.InferOutput<typeof Person>;

/** A place where trays stand, with its air. */
export const Place = v.object({
  id: PlaceId,
  name: line(40),
  kind: PlaceKind,
  airSpeedMs: between(0, 10, "m/s"),
  capacity: whole(1, 400),
  /** Ovens and cabinets: the air temperature they are set to. */
  setTempC: v.optional(between(15, 120, "°C")),
  /** Reads its air from another place's hygrometer. */
  airFrom: v.optional(PlaceId),
});
export type Place = v.InferOutput<typeof Place>;

/** Within the widest range of all kinds; deciding narrows it to the tool's own kind. */
const toolFigure = (field: ToolField) => within(TOOL_BOUNDS[field]);

/** A heat tool. Ovens and cabinets name the place that they are. */
export const Tool = v.object({
  id: ToolId,
  name: line(40),
  kind: ToolKind,
  placeId: v.optional(PlaceId),
  airC: toolFigure("airC"),
  maxAirC: toolFigure("maxAirC"),
  distanceCm: v.optional(toolFigure("distanceCm")),
  nozzleMm: v.optional(toolFigure("nozzleMm")),
  capS: whole(TOOL_BOUNDS.capS.min, TOOL_BOUNDS.capS.max),
  coolDownMin: toolFigure("coolDownMin"),
});
export type Tool = v.InferOutput<typeof Tool>;

export const Icing = v.object({
  id: IcingId,
  name: line(40),
  hex: hexColour,
  waterPct: v.optional(
    v.object({
      outline: v.optional(waterPct),
      "top-coat": v.optional(waterPct),
      flood: v.optional(waterPct),
      detail: v.optional(waterPct),
    }),
  ),
});
export type Icing = v.InferOutput<typeof Icing>;

/** Icing that stands mixed. Until when it may be used is the kitchen's to say. */
export const MixedBatch = v.object({
  id: BatchId,
  icingId: IcingId,
  consistency: Consistency,
  mixedAtMs: moment,
  useByAtMs: moment,
  massG: v.optional(between(1, 50_000, "g")),
});
export type MixedBatch = v.InferOutput<typeof MixedBatch>;

/** One application of icing in a design; `touches` names earlier layers it lies against (all of them when absent). */
export const Layer = v.object({
  name: line(40),
  consistency: Consistency,
  icingId: IcingId,
  thicknessMm: between(0.2, 12, "mm"),
  /** The narrowest span of its smallest section. */
  narrowestMm: between(0.5, 300, "mm"),
  areaCm2: v.optional(between(0.1, 2000, "cm²")),
  touches: v.optional(v.pipe(v.array(whole(0, 11)), v.maxLength(11))),
  /** Waits that differ from the worked-out ones, by the earlier layer's index. */
  waits: v.optional(v.pipe(v.array(v.object({ layer: whole(0, 11), need: Need })), v.maxLength(11))),
});
export type Layer = v.InferOutput<typeof Layer>;

export const Design = v.pipe(
  v.object({
    id: DesignId,
    name: line(60),
    sizeMm: between(10, 400, "mm"),
    layers: list(Layer, "layers", 12),
  }),
  v.check(
    (design) =>
      design.layers.every((layer, k) =>
        [...(layer.touches ?? []), ...(layer.waits ?? []).map((wait) => wait.layer)].every((j) => j < k),
      ),
    mustBe("earlier layers"),
  ),
);
export type Design = v.InferOutput<typeof Design>;

export const Order = v.object({
  id: OrderId,
  name: line(60),
  pickUpAtMs: moment,
  cookies: whole(1, 20000),
  note: v.optional(line(280)),
  allergens: v.optional(line(140)),
});
export type Order = v.InferOutput<typeof Order>;

/** Most trays that are added at once. */
export const TRAYS_AT_ONCE = 100;

/** What is fixed about a tray when it is added. */
export const TrayPlan = v.object({
  id: TrayId,
  number: whole(1, 9999),
  designId: DesignId,
  orderId: OrderId,
  count: whole(1, 200),
  placeId: PlaceId,
  slot: v.optional(line(12)),
});
export type TrayPlan = v.InferOutput<typeof TrayPlan>;

/** One line of a hygrometer, typed in or sent. */
export const ReadingLine = v.object({
  placeId: PlaceId,
  tempC: within(READING_RANGE.tempC),
  rhPct: within(READING_RANGE.rhPct),
  source: oneOf(["typed", "sensor", "practice"]),
});
export type ReadingLine = v.InferOutput<typeof ReadingLine>;
