import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as v from "valibot";
import { line } from "#shared/fields.ts";
import { pathOf } from "#phone/app/path.ts";

const UNSEEN = [
  "\u0000",
  "\u0007",
  "\u001b",
  "\u200b",
  "\u200d",
  "\u200e",
  "\u202e",
  "\u2066",
  "\u2069",
  "\ufeff",
  "\u00ad",
  "\u061c",
  "\u3164",
  "\ud800",
];
const text = fc
  .array(fc.oneof(fc.string({ unit: "binary" }), fc.constantFrom(...UNSEEN), fc.string()))
  .map((parts) => parts.join(""));

describe("P23 a line of text", () => {
  it("holds no character that is not seen, and is the same when it is read again", () => {
    fc.assert(
      fc.property(text, (typed) => {
        const parsed = v.safeParse(line(200), typed);
        if (!parsed.success) return;
        expect(parsed.output).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029\u3164]/u);
        expect(v.parse(line(200), parsed.output)).toBe(parsed.output);
      }),
    );
  });

  it("of nothing else is refused; names that look alike are alike; line breaks are spaces", () => {
    for (const unseen of UNSEEN) {
      expect(v.safeParse(line(40), unseen.repeat(3)).success).toBe(false);
      expect(v.parse(line(40), `W${unseen}ren${unseen}`)).toBe("Wren");
    }
    expect(v.parse(line(40), " Ida\r\nWren\t")).toBe("Ida Wren");
    expect(v.parse(line(40), "Zoë 山田 שרה")).toBe("Zoë 山田 שרה");
  });
});

describe("a phone's address", () => {
  it("is read whatever stands in it, half a character too", () => {
    expect(pathOf("#/t/%E0%A4%A")).toEqual(["t", "%E0%A4%A"]);
    fc.assert(fc.property(fc.string({ unit: "binary" }), (hash) => void pathOf(`#/${hash}`)));
  });
});
