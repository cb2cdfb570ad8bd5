import * as v from "valibot";
import {
  between,
  isOptional,
  line,
  list,
  mustBe,
  type NumberRange,
  oneOf,
  rangeOf,
  unwrapped,
  whole,
} from "#shared/fields.ts";
import { BASE_WATER_PCT, WATER_PCT } from "#shared/icing/water.ts";
import { MqttSettings } from "./mqtt-settings.ts";

/** A setting's schema, with its range and unit, and what a kitchen starts from. */
const setting = <Schema extends v.GenericSchema, Usual extends v.InferOutput<Schema>>(
  schema: Schema,
  usual: Usual,
) => ({ schema, usual });

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
/** Over the night where it closes sooner than it opens. */
const OpenDay = v.pipe(
  v.object({ fromMin: dayMinute, toMin: dayMinute }),
  v.check((day) => day.toMin !== day.fromMin, mustBe("another time")),
);
/** Hours of each day, Monday first; null on a day without. */
export const Week = v.pipe(v.array(v.nullable(OpenDay)), v.length(7, mustBe("seven days")));
export type Week = v.InferOutput<typeof Week>;
export const USUAL_DAY = { fromMin: 6 * 60, toMin: 20 * 60 };
/** Of an icing's mass. */
export const waterPct = between(8, 35, "% water");

/**
 * Everything about the whole kitchen that a lead sets, in the order of its form. What is newer than the oldest logs is optional
 * in them; null says that the kitchen has none.
 */
export const SETTINGS = {
  name: setting(line(60), "Traytide"),
  units: setting(oneOf(["metric", "us"]), "metric"),
  timeZone: setting(TimeZone, "UTC"),
  opening: setting(Week, [...Array.from({ length: 6 }, () => USUAL_DAY), null]),
  wall: setting(v.object({ diagonalCm: between(25, 300, "cm"), farthestM: between(1, 15, "m") }), {
    diagonalCm: 109,
    farthestM: 3,
  }),
  /** By consistency. */
  waterPct: setting(
    v.object({ outline: waterPct, "top-coat": waterPct, flood: waterPct, detail: waterPct }),
    { ...WATER_PCT, outline: BASE_WATER_PCT },
  ),
  densityKgM3: setting(between(900, 1600, "kg/m³"), 1350),
  /** Icing left in bags and bowls, % of what is on the cookies. Practice, no source. */
  wastePct: setting(v.optional(between(0, 100, "%")), 10),
  /** Icing is used within so many hours of mixing, by the kitchen's own plan. */
  icingUseH: setting(v.optional(v.nullable(between(1, 336, "h"))), null),
  icingLimitC: setting(between(45, 70, "°C"), 60),
  /** Share of the predicted skin time within which a sinking section is set. */
  sinkShare: setting(between(0.05, 0.9), 0.3),
  floodingMin: setting(between(0.5, 120, "min"), 10),
  packingMin: setting(between(0, 240, "min"), 20),
  /** How many ice at once; null: everyone who joined. */
  hands: setting(v.optional(v.nullable(whole(1, 60))), null),
  /** To put one icing down and take up another. Practice, no source. */
  icingChangeMin: setting(v.optional(between(0, 60, "min")), 2),
  /** Cookies to a box, unless an order says otherwise; null: not packed in boxes. */
  boxOf: setting(v.optional(v.nullable(whole(1, 1000))), null),
  /** Best before so many days after packing, by the kitchen's own rule; null: no such date on labels. */
  bestBeforeDays: setting(v.optional(v.nullable(whole(0, 730))), null),
  /** On box labels: allergens and storage in the kitchen's own words. */
  labelText: setting(v.optional(v.nullable(line(280))), null),
  toolIdleMin: setting(between(1, 30, "min"), 3),
  houseRules: setting(list(line(140), "rules", 12, 0), []),
  mqtt: setting(v.optional(v.nullable(MqttSettings)), null),
};

type Schemas = { [Name in keyof typeof SETTINGS]: (typeof SETTINGS)[Name]["schema"] };
const each = (part: "schema" | "usual"): unknown =>
  Object.fromEntries(Object.entries(SETTINGS).map(([name, one]) => [name, one[part]]));

export const Settings = v.object(each("schema") as Schemas);
export type Settings = v.InferOutput<typeof Settings>;
export const USUAL_SETTINGS = each("usual") as Settings;

type Group = Readonly<Record<string, number>>;
type Paths<Of> = {
  [Name in keyof Settings]-?: NonNullable<Settings[Name]> extends Group
    ? `${Name}.${Extract<keyof NonNullable<Settings[Name]>, string>}`
    : NonNullable<Settings[Name]> extends Of
      ? Name
      : never;
}[keyof Settings];

/** "floodingMin", "wall.farthestM": where each setting stands. */
export type SettingPath = Paths<unknown>;
/** Of those that are numbers. */
export type FigurePath = Paths<number>;

export interface Figure {
  path: FigurePath;
  range: NumberRange;
  /** Whether the kitchen may have none. */
  isOptional: boolean;
}

const figure = (path: string, schema: v.GenericSchema): Figure => ({
  path: path as FigurePath,
  range: rangeOf(schema),
  isOptional: isOptional(schema) && v.safeParse(schema, null).success,
});

/** Every setting that is a number, or one of a group of numbers. */
export const FIGURES: readonly Figure[] = Object.entries<{ schema: v.GenericSchema }>(SETTINGS).flatMap(
  ([name, { schema }]) => {
    if (unwrapped(schema).type === "number") return [figure(name, schema)];
    const { entries = {} } = schema as { entries?: Record<string, v.GenericSchema> };
    return Object.entries(entries).map(([part, inner]) => figure(`${name}.${part}`, inner));
  },
);
