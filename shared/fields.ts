import * as v from "valibot";
import { ok, type Outcome, refused } from "./outcome.ts";

/** What a field must be: facts, worded by `shared/words` where they are shown. */
export type Must =
  | { is: "between"; min: number; max: number; unit: string; isWhole?: boolean }
  | { is: "text"; max: number }
  | { is: "one of"; words: readonly string[] }
  | { is: "id"; of: string }
  | {
      is: "list";
      min: number;
      max: number;
      of: "people" | "trays" | "layers" | "rules" | "places" | "ingredients" | "problems" | "areas" | "lines";
    }
  | { is: "air"; words: readonly string[]; min: number; max: number; unit: string }
  | { is: MustBe };

/** What needs no figures. */
export type MustBe =
  | "true or false"
  | "a colour"
  | "a time zone"
  | "a command"
  | "seven days"
  | "another time"
  | "earlier layers"
  | "a JSON path"
  | "a broker's address"
  | "an MQTT topic"
  | "path data"
  | "well formed";

/** A schema's message can only be text: what a field must be travels in it as JSON. */
export const must = (fact: Must): string => JSON.stringify(fact);
export const mustBe = (is: MustBe): string => must({ is });

/** A finite number within a range; the refusal says the range and the unit. */
export const between = (min: number, max: number, unit = "") => {
  const range = must({ is: "between", min, max, unit });
  return v.pipe(v.number(range), v.finite(range), v.minValue(min, range), v.maxValue(max, range));
};

/** The same of a range written elsewhere. */
export const within = ({ min, max, unit }: { min: number; max: number; unit?: string }) =>
  between(min, max, unit);

/** A whole number within a range. */
export const whole = (min: number, max: number) => {
  const range = must({ is: "between", min, max, unit: "", isWhole: true });
  return v.pipe(v.number(range), v.integer(range), v.minValue(min, range), v.maxValue(max, range));
};

/** A list of at least one, and at most so many. */
export const list = <Item extends v.GenericSchema>(
  item: Item,
  of: Extract<Must, { is: "list" }>["of"],
  max: number,
  min = 1,
) => {
  const count = must({ is: "list", min, max, of });
  return v.pipe(v.array(item), v.minLength(min, count), v.maxLength(max, count));
};

export const flag = v.boolean(mustBe("true or false"));

const LINE_BREAKS = /[\t\n\v\f\r\u0085\u2028\u2029]+/gu;
/** Control, bidirectional and zero-width characters, halves of characters, and what else shows nothing. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Default_Ignorable_Code_Point}]/gu;

/** Text on one line, without what cannot be seen: two names that look alike are alike, and none turns the words beside it. */
export const visible = (text: string): string => text.replace(LINE_BREAKS, " ").replace(UNSEEN, "");

/** A line of text a person typed: trimmed, 1 to `max` characters that can be seen. */
export const line = (max: number) =>
  v.pipe(
    v.string(must({ is: "text", max })),
    v.transform(visible),
    v.trim(),
    v.minLength(1, must({ is: "text", max })),
    v.maxLength(max, must({ is: "text", max })),
  );

/** A colour as #rrggbb. */
export const hexColour = v.pipe(v.string(mustBe("a colour")), v.regex(/^#[\da-f]{6}$/i, mustBe("a colour")));

type Wrapped = { wrapped: v.GenericSchema };
/** A schema without the optional and nullable around it. */
export const unwrapped = (schema: v.GenericSchema): v.GenericSchema =>
  "wrapped" in schema ? unwrapped((schema as v.GenericSchema & Wrapped).wrapped) : schema;

export const isOptional = (schema: v.GenericSchema): boolean => "wrapped" in schema;

interface Check {
  type: string;
  requirement?: unknown;
  message?: unknown;
  pipe?: readonly Check[];
}
/** A schema's checks; one made of another has the other's as well. */
const checksOf = ({ pipe = [] }: { pipe?: readonly Check[] }): Check[] =>
  pipe.flatMap((check) => (check.pipe === undefined ? [check] : checksOf(check)));

/** A schema's check of this kind, such as "min_value". */
function checkOf(schema: v.GenericSchema, kind: string): Check & { requirement: number } {
  const found = checksOf(unwrapped(schema) as { pipe?: readonly Check[] }).find(({ type }) => type === kind);
  if (typeof found?.requirement !== "number") throw new Error(`a field without ${kind}`);
  return { ...found, requirement: found.requirement };
}

/** What a number's schema asks for. */
export interface NumberRange {
  min: number;
  max: number;
  unit?: string;
  isWhole?: boolean;
}

/** The range of a number's schema, for the field that asks for it. */
export function rangeOf(schema: v.GenericSchema): NumberRange {
  const { message } = checkOf(schema, "min_value");
  const { min, max, unit, isWhole } = JSON.parse(String(message)) as Extract<Must, { is: "between" }>;
  return { min, max, ...(unit !== "" && { unit }), ...(isWhole === true && { isWhole }) };
}

/** The most characters of a text's schema, or things of a list's. */
export const longestOf = (schema: v.GenericSchema): number => checkOf(schema, "max_length").requirement;

/** A moment, milliseconds since 1970 UTC, within 2020–2100. */
export const moment = between(Date.UTC(2020, 0, 1), Date.UTC(2100, 0, 1), "ms since 1970");

/** One of a few words. */
export const oneOf = <const Words extends readonly [string, ...string[]]>(words: Words) =>
  v.picklist(words, must({ is: "one of", words }));

/** The first bad field by its path, and what it must be. */
export interface BadField {
  field: string;
  must: Must;
  isMissing?: boolean;
}

/** What a schema makes of something from outside, or the first bad field of it. */
export function parse<Schema extends v.GenericSchema>(
  schema: Schema,
  input: unknown,
): Outcome<v.InferOutput<Schema>, BadField> {
  const parsed = v.safeParse(shapeOf(schema, input), input);
  if (parsed.success) return ok(parsed.output);
  const [issue] = parsed.issues;
  if (issue.received !== "undefined") return refused(said(issue));
  // An absent key is an issue of the object around it, which cannot say what the field must be: it is asked for by name.
  const named = v.safeParse(schema, withKey(input, issue.path ?? []));
  return refused(said(named.success ? issue : named.issues[0]));
}

/** A variant's shapes by the word that tells them apart. */
const shapes = new WeakMap<v.GenericSchema, ReadonlyMap<unknown, v.GenericSchema>>();

/** Of a variant the shape that the input names, which the library would find by trying one after another; else the schema itself. */
function shapeOf<Schema extends v.GenericSchema>(schema: Schema, input: unknown): Schema {
  if (!isVariant(schema) || typeof input !== "object" || input === null) return schema;
  const known =
    shapes.get(schema) ?? new Map(schema.options.map((shape) => [shape.entries[schema.key]?.literal, shape]));
  shapes.set(schema, known);
  return (known.get((input as Record<string, unknown>)[schema.key]) as Schema | undefined) ?? schema;
}

type Shape = v.GenericSchema & { entries: Record<string, { literal?: unknown }> };
/** A variant whose shapes are each known by a literal. */
const isVariant = (schema: v.GenericSchema): schema is v.GenericSchema & { key: string; options: Shape[] } =>
  schema.type === "variant" && "key" in schema;

function said(issue: v.BaseIssue<unknown>): BadField {
  const field = v.getDotPath(issue) ?? "body";
  return {
    field,
    must: mustOf(issue.message),
    ...(issue.received === "undefined" && { isMissing: true }),
  };
}

/** A schema of the library's own, without a message of ours, says that its value is not well formed. */
function mustOf(message: string): Must {
  return message.startsWith('{"is":') ? (JSON.parse(message) as Must) : { is: "well formed" };
}

/** The same input with the key at the end of this path there, and undefined. */
function withKey(input: unknown, [step, ...rest]: readonly { key?: unknown }[]): unknown {
  if (step === undefined) return undefined;
  if (Array.isArray(input)) return input.map((item, k) => (k === step.key ? withKey(item, rest) : item));
  const fields = Object(input) as Record<string, unknown>;
  const key = String(step.key);
  return { ...fields, [key]: withKey(fields[key], rest) };
}
