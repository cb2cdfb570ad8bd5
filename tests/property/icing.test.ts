import * as fc from "fast-check";
import { expect, test } from "vitest";
import { lightnessDifference } from "#shared/icing/contrast.ts";
import { batchesFor, floodedAreaMm2, type IcingNeed } from "#shared/icing/quantities.ts";
import { ovalShape, rectangleShape, roundShape } from "#shared/icing/outline-shape.ts";
import { cookiesBeforeSetting } from "#shared/icing/sinking.ts";
import { baseAndWater } from "#shared/icing/water.ts";

const number = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

const shapes = fc
  .tuple(fc.constantFrom(roundShape, ovalShape, rectangleShape), number(10, 300), number(10, 300))
  .map(([shape, widthMm, heightMm]) => shape(widthMm, heightMm));

test("I1 a wider margin never leaves more, none leaves all, and nothing goes below nought", () => {
  fc.assert(
    fc.property(shapes, number(0, 100), number(0, 100), (shape, a, b) => {
      const narrow = floodedAreaMm2(shape, Math.min(a, b));
      const wide = floodedAreaMm2(shape, Math.max(a, b));
      expect(wide).toBeLessThanOrEqual(narrow);
      expect(wide).toBeGreaterThanOrEqual(0);
      expect(floodedAreaMm2(shape, 0)).toBe(shape.areaMm2);
    }),
  );
});

const needs: fc.Arbitrary<IcingNeed[]> = fc.array(
  fc.record({
    colour: fc.constantFrom("butter", "storm", "sea glass"),
    consistency: fc.constantFrom("outline", "top-coat", "flood", "detail"),
    volumeMl: number(0, 2000),
  }),
  { maxLength: 30 },
);

test("I7 what is mixed covers what is needed and its waste, by less than one batch over", () => {
  fc.assert(
    fc.property(needs, number(0, 0.5), number(5, 500), (all, wasteShare, batchMl) => {
      const mixes = batchesFor(all, { wasteShare, batchMl });
      for (const { needMl, mixMl } of mixes) {
        const wantedMl = needMl * (1 + wasteShare);
        expect(mixMl).toBeGreaterThanOrEqual(wantedMl - 1e-6);
        expect(mixMl).toBeLessThan(wantedMl + batchMl);
      }
      const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
      const needed = sum(all.map(({ volumeMl }) => volumeMl));
      expect(Math.abs(sum(mixes.map(({ needMl }) => needMl)) - needed)).toBeLessThan(1e-6);
      expect(new Set(mixes.map(({ colour, consistency }) => `${consistency} ${colour}`)).size).toBe(
        mixes.length,
      );
    }),
  );
});

test("I8 base and water add up to the batch, and its water to the wanted share", () => {
  fc.assert(
    fc.property(number(1, 10_000), number(8, 18), number(0, 15), (mixG, basePct, more) => {
      const wantedPct = basePct + more;
      const { baseG, waterG } = baseAndWater(mixG, wantedPct, basePct);
      expect((baseG + waterG) / mixG).toBeCloseTo(1, 9);
      expect((100 * ((baseG * basePct) / 100 + waterG)) / mixG).toBeCloseTo(wantedPct, 6);
      expect(waterG).toBeGreaterThanOrEqual(0);
    }),
  );
});

test("I4 a lightness difference is the same both ways and lies in 0–100", () => {
  const colours = fc.integer({ min: 0, max: 0xffffff }).map((rgb) => `#${rgb.toString(16).padStart(6, "0")}`);
  fc.assert(
    fc.property(colours, colours, (a, b) => {
      const difference = lightnessDifference(a, b);
      expect(difference).toBe(lightnessDifference(b, a));
      expect(difference).toBeGreaterThanOrEqual(0);
      expect(difference).toBeLessThanOrEqual(100.001);
    }),
  );
});

test("I5 flooding, and setting by hot air, fit into the window, unless there is only one cookie", () => {
  const kinds = fc.constantFrom("hot-air", "oven", "warm-cabinet" as const);
  fc.assert(
    fc.property(number(0, 60), number(0.1, 10), number(0, 10), kinds, (windowMin, floodMin, setMin, kind) => {
      const cookies = cookiesBeforeSetting(windowMin, floodMin, setMin, kind);
      expect(Number.isInteger(cookies)).toBe(true);
      expect(cookies).toBeGreaterThanOrEqual(1);
      const eachMin = kind === "hot-air" ? floodMin + setMin : floodMin;
      if (cookies > 1) expect(cookies * eachMin).toBeLessThanOrEqual(windowMin + 1e-6);
    }),
  );
});
