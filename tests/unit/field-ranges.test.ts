import * as v from "valibot";
import { describe, expect, it } from "vitest";
import { between, line, longestOf, rangeOf, whole } from "#shared/fields.ts";
import { Design, Place } from "#shared/kitchen/model/vocabulary.ts";

describe("a form's field asks its schema for its range", () => {
  it("through optional and nullable, and of a field of a checked object", () => {
    expect(rangeOf(between(0.2, 12, "mm"))).toEqual({ min: 0.2, max: 12, unit: "mm" });
    expect(rangeOf(v.optional(v.nullable(whole(1, 60))))).toEqual({ min: 1, max: 60, isWhole: true });
    expect(rangeOf(Place.entries.capacity)).toEqual({ min: 1, max: 400, isWhole: true });
    expect(rangeOf(Design.entries.sizeMm)).toEqual({ min: 10, max: 400, unit: "mm" });
    expect(longestOf(line(40))).toBe(40);
    expect(longestOf(v.optional(line(280)))).toBe(280);
    expect(longestOf(v.pipe(line(200), v.regex(/^a/)))).toBe(200);
  });

  it("and is told where there is none", () => {
    expect(() => rangeOf(v.number())).toThrow("a field without min_value");
  });
});
