import * as v from "valibot";
import { ok, type Outcome, refused } from "./outcome.ts";

/** A finite number within a range; the refusal says the range and the unit. */
export const between = (min: number, max: number, unit = "") => {
  const range = `must be ${min} to ${max}${unit === "" ? "" : ` ${unit}`}`;
  return v.pipe(
    v.number(`${range}: a number`),
    v.finite(range),
    v.minValue(min, range),
    v.maxValue(max, range),
  );
};

/** The same of a range written elsewhere. */
export const within = ({ min, max, unit }: { min: number; max: number; unit?: string }) =>
  between(min, max, unit);

/** A whole number within a range. */
export const whole = (min: number, max: number) => {
  const range = `must be a whole number from ${min} to ${max}`;
  return v.pipe(v.number(range), v.integer(range), v.minValue(min, range), v.maxValue(max, range));
};

const LINE_BREAKS = /[\t\n\v\f\r\u0085\u2028\u2029]+/gu;
/** Control, bidirectional and zero-width characters, halves of characters, and what else shows nothing. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Default_Ignorable_Code_Point}]/gu;

/** Text on one line, without what cannot be seen: two names that look alike are alike, and none turns the words beside it. */
export const visible = (text: string): string => text.replace(LINE_BREAKS, " ").replace(UNSEEN, "");

/** A line of text a person typed: trimmed, 1 to `max` characters that can be seen. */
export const line = (max: number) =>
  v.pipe(
    v.string(`must be text of 1 to ${max} characters`),
    v.transform(visible),
    v.trim(),
    v.minLength(1, `must be text of 1 to ${max} characters`),
    v.maxLength(max, `must be text of 1 to ${max} characters`),
  );

/** A colour as #rrggbb. */
export const hexColour = v.pipe(
  v.string("must be a colour as #rrggbb"),
  v.regex(/^#[\da-f]{6}$/i, "must be a colour as #rrggbb"),
);

type Wrapped = { wrapped: v.GenericSchema };
const unwrapped = (schema: v.GenericSchema): v.GenericSchema =>
  "wrapped" in schema ? unwrapped((schema as v.GenericSchema & Wrapped).wrapped) : schema;

/** What a schema requires by a check of this kind, such as "min_value"; looks through optional and nullable. */
function requirement(schema: v.GenericSchema, kind: string): number {
  const { pipe = [] } = unwrapped(schema) as { pipe?: readonly { type: string; requirement?: unknown }[] };
  const found = pipe.find(({ type }) => type === kind)?.requirement;
  if (typeof found !== "number") throw new Error(`a field without ${kind}`);
  return found;
}

/** The range of a number's schema, for the field that asks for it. */
export const rangeOf = (schema: v.GenericSchema): { min: number; max: number } => ({
  min: requirement(schema, "min_value"),
  max: requirement(schema, "max_value"),
});

/** The most characters of a text's schema. */
export const longestOf = (schema: v.GenericSchema): number => requirement(schema, "max_length");

/** A moment, milliseconds since 1970 UTC, within 2020–2100. */
export const moment = between(Date.UTC(2020, 0, 1), Date.UTC(2100, 0, 1), "ms since 1970");

/** One of a few words. */
export const oneOf = <const Words extends readonly [string, ...string[]]>(words: Words) =>
  v.picklist(words, `must be one of: ${words.join(", ")}`);

/** The first bad field by its path, and a sentence that says what it must be. */
export interface BadField {
  field: string;
  message: string;
}

/** What a schema makes of something from outside, or the first bad field of it. */
export function parse<Schema extends v.GenericSchema>(
  schema: Schema,
  input: unknown,
): Outcome<v.InferOutput<Schema>, BadField> {
  const parsed = v.safeParse(schema, input);
  if (parsed.success) return ok(parsed.output);
  const [issue] = parsed.issues;
  if (issue.received !== "undefined") return refused(said(issue));
  // An absent key is an issue of the object around it, which cannot say what the field must be: it is asked for by name.
  const named = v.safeParse(schema, withKey(input, issue.path ?? []));
  return refused(said(named.success ? issue : named.issues[0]));
}

function said(issue: v.BaseIssue<unknown>): BadField {
  const field = v.getDotPath(issue) ?? "body";
  if (issue.received !== "undefined") return { field, message: `${field} ${issue.message}` };
  const must = issue.message.startsWith("must ") ? `: it ${issue.message}` : "";
  return { field, message: `${field} is missing${must}` };
}

/** The same input with the key at the end of this path there, and undefined. */
function withKey(input: unknown, [step, ...rest]: readonly { key?: unknown }[]): unknown {
  if (step === undefined) return undefined;
  if (Array.isArray(input)) return input.map((item, k) => (k === step.key ? withKey(item, rest) : item));
  const fields = Object(input) as Record<string, unknown>;
  const key = String(step.key);
  return { ...fields, [key]: withKey(fields[key], rest) };
}
