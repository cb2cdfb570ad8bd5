import * as v from "valibot";
import { Drawing } from "#shared/drawing/drawing.ts";
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
import {
  BatchId,
  DesignId,
  IcingId,
  OrderId,
  PersonId,
  PlaceId,
  RecipeId,
  ToolId,
  TrayId,
} from "#shared/ids.ts";
import { waterPct, Week } from "./settings.ts";

/** The nouns of the kitchen as schemas: each shape is defined once, and is both what is sent and what is stored. */

export const Role = oneOf(["lead", "decorator", "wall", "sensor"]);
export type Role = v.InferOutput<typeof Role>;

/** What a joined screen or sensor is. A bench is a wall that can be tapped: it acts as a decorator. */
export const DeviceKind = oneOf(["phone", "wall", "bench", "sensor"]);
export type DeviceKind = v.InferOutput<typeof DeviceKind>;

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

export const Person = v.object({
  id: PersonId,
  name: line(40),
  role: Role,
  /** A screen that anyone at the bench taps: no pair of hands of its own. Logs from before it was told lack it. */
  isBench: v.optional(flag),
  /** When they work; all opening hours when left out. */
  hours: v.optional(Week),
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
  /** Temperature it is laid at; the room's when left out. */
  laidAtC: v.optional(between(5, 45, "°C")),
  /** What it is made by. */
  recipeId: v.optional(RecipeId),
  /** Dries slowly (glycerol, corn syrup, a saturated colour): how slowly is for its films to tell. */
  isSlow: v.optional(flag),
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

/** What a recipe's amounts are told in. */
export const RecipeUnit = oneOf(["g", "mL"]);
export type RecipeUnit = v.InferOutput<typeof RecipeUnit>;

/** A recipe of icing, for so much of it; allergens in the kitchen's own words. */
export const Recipe = v.object({
  id: RecipeId,
  name: line(60),
  ingredients: list(
    v.object({ name: line(60), amount: between(0.1, 100_000), unit: RecipeUnit }),
    "ingredients",
    30,
  ),
  allergens: v.optional(line(140)),
  method: v.optional(line(500)),
});
export type Recipe = v.InferOutput<typeof Recipe>;

/** How many seconds until a line drawn through a bowl of icing closes: stiffer icing takes longer. */
const closesS = between(1, 300, "s");

/** Mixed icing. Until when it may be used is the kitchen's to say. */
export const MixedBatch = v.object({
  id: BatchId,
  icingId: IcingId,
  consistency: Consistency,
  mixedAtMs: moment,
  useByAtMs: moment,
  massG: v.optional(between(1, 50_000, "g")),
  closesS: v.optional(closesS),
  recipeId: v.optional(RecipeId),
  /** As its recipe named them when it was mixed. */
  allergens: v.optional(line(140)),
});
export type MixedBatch = v.InferOutput<typeof MixedBatch>;

/** What was wrong with a batch, in a line. */
export const WrongWhy = line(140);

/** What a film was flooded from: a batch that was recorded, else what was laid of its colour within an hour. */
export const Bowl = v.object({ id: line(60), closesS: v.optional(closesS) });
export type Bowl = v.InferOutput<typeof Bowl>;

const PartIds = v.pipe(v.array(line(24)), v.maxLength(60));

/** One application of icing in a design; `touches` names earlier layers it lies against (all of them when absent). */
export const Layer = v.object({
  name: line(40),
  consistency: Consistency,
  icingId: IcingId,
  thicknessMm: between(0.2, 12, "mm"),
  /** The narrowest span of its smallest section. */
  narrowestMm: between(0.5, 300, "mm"),
  areaCm2: v.optional(between(0.1, 2000, "cm²")),
  /** Of a piped layer: how long its line is. */
  lineMm: v.optional(between(1, 50_000, "mm")),
  /** Which areas and lines of the design's drawing it covers, by their ids. */
  covers: v.optional(v.object({ areas: PartIds, lines: PartIds })),
  /** Figures typed by hand where the drawing measures something else. */
  typed: v.optional(v.array(oneOf(["areaCm2", "lineMm", "narrowestMm", "touches"]))),
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
    /** What it looks like; designs from before there were drawings, and those that nobody drew, have none. */
    drawing: v.optional(Drawing),
    /** Not offered for new trays. */
    isArchived: v.optional(flag),
    /** An earlier version of that design, kept for the trays begun by it. */
    revisionOf: v.optional(DesignId),
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
  /** Cookies to a box; the kitchen's usual when left out. */
  boxOf: v.optional(whole(1, 1000)),
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
