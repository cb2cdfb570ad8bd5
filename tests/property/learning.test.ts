import { PRIOR_BELIEF } from "#shared/drying/uncertainty/belief.ts";
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";

import {
  beliefFor,
  compareWithBook,
  type Evidence,
  learn,
  learningSteps,
} from "#shared/drying/uncertainty/learning.ts";

const ln = fc.double({ min: -3, max: 3, noNaN: true });
const bounds = fc.oneof(
  ln.map((at) => ({ lnLow: at, lnHigh: at })),
  fc.tuple(ln, ln).map(([a, b]) => ({ lnLow: Math.min(a, b), lnHigh: Math.max(a, b) })),
  ln.map((at) => ({ lnLow: at, lnHigh: Infinity })),
  ln.map((at) => ({ lnLow: -Infinity, lnHigh: at })),
  ln.map((at) => ({ lnLow: -Infinity, lnHigh: at, byAct: true })),
);
const item: fc.Arbitrary<Evidence> = fc
  .record({
    quantity: fc.constantFrom("skin" as const, "dryThrough" as const),
    icing: fc.constantFrom("white", "navy", "red", "__proto__"),
    place: fc.constantFrom("rack", "cabinet", "constructor"),
    ageDays: fc.nat({ max: 30 }),
  })
  .chain((kind) =>
    fc
      .record(
        {
          bowl: fc.constantFrom("b1", "b2", "toString"),
          secondsLn: fc.double({ min: -1, max: 1, noNaN: true }),
          heat: fc.constantFrom("oven", "hot-air"),
          isSlow: fc.constant(true),
          film: fc.constantFrom("t1/0", "t2/0"),
          found: bounds,
        },
        { requiredKeys: ["found"] },
      )
      .map(({ found, ...more }): Evidence => ({ ...kind, ...found, ...more })),
  );
const evidence = fc.array(item, { maxLength: 25 });
const withShuffled = evidence.chain((items) =>
  fc.tuple(fc.constant(items), fc.shuffledSubarray(items, { minLength: items.length })),
);

/** No item is taken for a freak, no icing for an odd one, and the scatter is known. */
const TRUSTING = { freakShare: 0, oddShare: 0, filmSdFilms: Infinity, bowlSdBowls: Infinity };

describe("learning, whatever was found", () => {
  test("D12 any order of evidence gives the same to the last digit", () => {
    fc.assert(
      fc.property(withShuffled, ([items, shuffled]) => {
        expect(learn(shuffled)).toEqual(learn(items));
      }),
    );
  });

  test("D12 in steps, with whatever was learned before, it comes to the same to the last digit", () => {
    const sometimesSame = fc.oneof(
      evidence.map((items) => [items, items] as const),
      fc.tuple(evidence, evidence),
    );
    fc.assert(
      fc.property(sometimesSame, ([items, earlier]) => {
        const steps = learningSteps(items, { evidence: earlier, learned: learn(earlier) });
        let step = steps.next();
        if (items === earlier) expect(step.done).toBe(true);
        while (step.done !== true) step = steps.next();
        expect(step.value).toEqual(learn(items));
      }),
    );
  });

  test("a belief is finite, and never surer than one film is like the next", () => {
    fc.assert(
      fc.property(evidence, (items) => {
        const learned = learn(items);
        const belief = beliefFor(learned, { icing: "white", place: "a place never tested" });
        for (const quantity of ["skin", "dryThrough"] as const) {
          expect(Math.abs(belief[quantity].meanLn)).toBeLessThan(4);
          expect(belief[quantity].sdLn).toBeGreaterThan(learned.posterior[quantity].filmSd);
          expect(belief[quantity].sdLn).toBeLessThan(3);
        }
      }),
    );
  });

  test("nor where two findings of two icings hardly tell anything but of each other", () => {
    const first = { icing: "navy", place: "cabinet", lnLow: -0.06779, lnHigh: 0.32847, ageDays: 6 };
    const second = { icing: "white", place: "rack", bowl: "b1", lnLow: 0.89492, lnHigh: Infinity };
    const learned = learn([first, second].map((one) => ({ quantity: "skin", ...one })));
    const { skin } = beliefFor(learned, { icing: "white", place: "rack" });
    expect(skin.meanLn).toBeGreaterThan(0.1);
    expect(skin.meanLn).toBeLessThan(0.6);
    expect(skin.sdLn).toBeLessThan(1);
  });

  test("what one quantity learns leaves the other alone", () => {
    fc.assert(
      fc.property(evidence, (items) => {
        const skinOnly = learn(items.filter(({ quantity }) => quantity === "skin"));
        expect(beliefFor(skinOnly, { icing: "navy", place: "rack" }).dryThrough).toEqual(
          PRIOR_BELIEF.dryThrough,
        );
        expect(beliefFor(skinOnly, { icing: "navy", place: "rack" }).skin).toEqual(
          beliefFor(learn(items), { icing: "navy", place: "rack" }).skin,
        );
      }),
    );
  });

  test("freaks aside, films found later never make the kitchen look faster", () => {
    fc.assert(
      fc.property(evidence, fc.double({ min: 0.01, max: 1, noNaN: true }), (items, by) => {
        const later = items.map((one) => ({ ...one, lnLow: one.lnLow + by, lnHigh: one.lnHigh + by }));
        const { skin } = beliefFor(learn(items, TRUSTING), { icing: "white", place: "rack" });
        // A ten-thousandth for where the sweeps stop.
        expect(
          beliefFor(learn(later, TRUSTING), { icing: "white", place: "rack" }).skin.meanLn,
        ).toBeGreaterThan(skin.meanLn - 1e-4);
      }),
    );
  });

  test("what is learned is plain data: written and read again it believes the same", () => {
    fc.assert(
      fc.property(evidence, (items) => {
        const learned = learn(items);
        expect(JSON.parse(JSON.stringify(learned))).toEqual(learned);
      }),
    );
  });

  test("the kitchen beside the book: each group tested once, its tests counted, its band about its ratio", () => {
    fc.assert(
      fc.property(evidence, (items) => {
        const lines = compareWithBook(learn(items));
        for (const quantity of ["skin", "dryThrough"] as const) {
          const own = items.filter((one) => one.quantity === quantity);
          const of = lines.filter((line) => line.quantity === quantity);
          const inAir = own.filter(({ heat }) => heat === undefined);
          const groups = new Set(
            own.flatMap(({ icing, place, heat }) => [`icing ${icing}`, heat ?? `place ${place}`]),
          );
          expect(of).toHaveLength((inAir.length === 0 ? 0 : 1) + groups.size);
          for (const { group, tests, ratio, lowRatio, highRatio } of of) {
            const isOf = (one: Evidence): boolean => {
              if (group.icing !== undefined) return one.icing === group.icing;
              if (group.heat !== undefined) return one.heat === group.heat;
              return one.heat === undefined && (group.place ?? one.place) === one.place;
            };
            expect(tests).toBe(own.filter(isOf).length);
            expect(lowRatio).toBeLessThan(ratio);
            expect(highRatio).toBeGreaterThan(ratio);
          }
        }
      }),
    );
  });

  test("bounds beyond all reason move nothing, and do no harm", () => {
    for (const far of [30, 200, 1e6])
      for (const bounds of [
        { lnLow: -far, lnHigh: 1 - far },
        { lnLow: far, lnHigh: Infinity },
        { lnLow: -Infinity, lnHigh: -far, byAct: true },
      ]) {
        const { skin } = beliefFor(learn([{ quantity: "skin", icing: "white", place: "rack", ...bounds }]), {
          icing: "white",
          place: "rack",
        });
        expect(Math.abs(skin.meanLn)).toBeLessThan(0.01);
        expect(skin.sdLn).toBeCloseTo(PRIOR_BELIEF.skin.sdLn, 2);
      }
  });

  test("bounds that cross, or are no numbers, are refused by name", () => {
    const found = (lnLow: number, lnHigh: number) => () =>
      learn([{ quantity: "skin", icing: "white", place: "rack", lnLow, lnHigh }]);
    expect(found(0.2, 0.1)).toThrow(/^lnLow must be a number at or below lnHigh, got 0.2 and 0.1/);
    for (const bad of [found(Number.NaN, 1), found(0, Number.NaN), found(Infinity, Infinity)])
      expect(bad).toThrow(RangeError);
    expect(beliefFor(learn([]), { icing: "white", place: "rack" })).toEqual(
      beliefFor(found(-Infinity, Infinity)(), { icing: "white", place: "rack" }),
    );
  });
});
