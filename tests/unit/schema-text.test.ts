import * as v from "valibot";
import { expect, it } from "vitest";
import { between, line, oneOf } from "#shared/fields.ts";
import { schemaText } from "#tests/support/schema-text.ts";

const text = (...fields: v.ObjectEntries[]): string =>
  schemaText(v.variant("type", [v.object({ type: v.literal("a"), ...Object.assign({}, ...fields) })]));

it("a schema's text is the same for the same values, whatever its messages and the order of its fields", () => {
  expect(text({ n: v.number("a"), s: v.string() })).toBe(text({ s: v.string(), n: v.number("b") }));
});

it.each<[string, v.ObjectEntries, v.ObjectEntries]>([
  ["a field more", { n: v.number() }, { n: v.number(), m: v.optional(v.number()) }],
  ["a field that may be absent", { n: v.number() }, { n: v.optional(v.number()) }],
  ["another name", { n: v.number() }, { m: v.number() }],
  ["another range", { n: between(0, 1) }, { n: between(0, 2) }],
  ["another length", { n: line(40) }, { n: line(41) }],
  ["another word", { n: oneOf(["a", "b"]) }, { n: oneOf(["a", "c"]) }],
  ["another default", { n: v.optional(v.number(), 1) }, { n: v.optional(v.number(), 2) }],
  ["another pattern", { n: v.pipe(v.string(), v.regex(/a/)) }, { n: v.pipe(v.string(), v.regex(/b/)) }],
  [
    "a check more",
    { n: v.number() },
    {
      n: v.pipe(
        v.number(),
        v.check(() => true),
      ),
    },
  ],
  ["another kind in a list", { n: v.array(v.number()) }, { n: v.array(v.string()) }],
])("P20 %s makes another text", (_what, before, after) => {
  expect(text(before)).not.toBe(text(after));
});
