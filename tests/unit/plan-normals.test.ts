import { expect, test } from "vitest";
import { DRAWS, placesOf, QUANTILES, stratifiedNormals } from "#shared/kitchen/plan/normals.ts";

const below = (numbers: Float64Array): number[] =>
  Array.from(numbers, (one) => numbers.filter((other) => other < one).length);

test("each number's place is how many are below it, whatever their spread, and alike where they are equal", () => {
  const [one, other] = [stratifiedNormals()("one"), stratifiedNormals()("other")];
  const mixed = one.map((z, draw) => 0.6 * z + 0.8 * other[draw]!);
  const narrow = one.map((z) => 1e-6 * z);
  const wide = one.map((z) => 40 * z);
  const tied = one.map((z) => Math.round(2 * z));
  for (const numbers of [one, QUANTILES, mixed, narrow, wide, tied, new Float64Array(DRAWS)])
    expect(Array.from(placesOf(numbers))).toEqual(below(numbers));
});
