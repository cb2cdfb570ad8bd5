import { PRIOR_BELIEF } from "#shared/drying/uncertainty/belief.ts";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { forecastFilm } from "#shared/drying/uncertainty/forecast.ts";
import type { FilmQuestion } from "#shared/kitchen/forecast/films.ts";
import { makeForecastCache } from "#server/forecast/forecast-cache.ts";

const AIR = { tempC: 22, rhPct: 45, speedMs: 0.15 };
const QUESTION: FilmQuestion = {
  spec: { thicknessMm: 2.4, waterPct: 19, densityKgM3: 1350 },
  spells: [{ fromS: 0, air: AIR }],
  belief: PRIOR_BELIEF,
  doubt: { tempSdC: 0.5, rhSdPct: 2.5, speedSdLn: 0.3 },
  doubtFromS: 0,
  waterSdPct: 0.3,
};
const inAir = (air: Partial<typeof AIR>): FilmQuestion => ({
  ...QUESTION,
  spells: [{ fromS: 0, air: { ...AIR, ...air } }],
});

/** A basis that is never the same, so that each question is put. */
const always = () => [Symbol()];

/** Whether the second question is answered with what the first one got. */
function isKept(first: FilmQuestion, second: FilmQuestion): boolean {
  const { solve } = makeForecastCache(always);
  return solve("film", () => first) === solve("film", () => second);
}

describe("an answer is kept", () => {
  it.each([
    ["the same question", QUESTION],
    ["a hygrometer's jitter", inAir({ rhPct: 45.3, tempC: 22.1 })],
    ["the same air cut into spells", { ...QUESTION, spells: [...QUESTION.spells, { fromS: 600, air: AIR }] }],
    ["a moment later", { ...QUESTION, doubtFromS: 60 }],
  ])("for %s", (_, second) => expect(isKept(QUESTION, second)).toBe(true));

  it.each([
    ["damper air", inAir({ rhPct: 46 })],
    ["warmer air", inAir({ tempC: 22.5 })],
    ["moving air", inAir({ speedMs: 0.5 })],
    ["a film laid warmer", { ...QUESTION, spec: { ...QUESTION.spec, roomC: 26 } }],
    ["icing that was warmed", { ...QUESTION, spec: { ...QUESTION.spec, laidAtC: 30 } }],
    ["a bowl that is known", { ...QUESTION, waterSdPct: 0 }],
    ["a thicker film", { ...QUESTION, spec: { ...QUESTION.spec, thicknessMm: 2.5 } }],
    ["what was learned", { ...QUESTION, belief: { ...PRIOR_BELIEF, skin: { meanLn: 0.05, sdLn: 0.4 } } }],
    ["older air", { ...QUESTION, doubt: { ...QUESTION.doubt, rhSdPct: 4 } }],
    ["a quarter of an hour later", { ...QUESTION, doubtFromS: 900 }],
    [
      "a spell of hot air",
      {
        ...QUESTION,
        spells: [...QUESTION.spells, { fromS: 300, air: { ...AIR, hWm2K: 60 } }, { fromS: 420, air: AIR }],
      },
    ],
  ])("but not for %s", (_, second) => expect(isKept(QUESTION, second)).toBe(false));

  it("near the humidity at which nothing dries, hardly any change is small", () => {
    expect(isKept(inAir({ rhPct: 82 }), inAir({ rhPct: 82.1 }))).toBe(false);
  });

  it("for the other films of a batch too, several ages at a time, each on the same terms", () => {
    const { solve } = makeForecastCache(always);
    const ages = [0, 1800, 5400].map((doubtFromS) => ({ ...QUESTION, doubtFromS }));
    const first = ages.map((question, layer) => solve(`1/${layer}`, () => question));
    expect(new Set(first).size).toBe(ages.length);
    ages.forEach((question, layer) => expect(solve(`2/${layer}`, () => question)).toBe(first[layer]));
    expect(first).not.toContain(solve("4/0", () => inAir({ rhPct: 46 })));
  });

  it("without the question being put, while nothing has changed that it is made of", () => {
    let minute = 0;
    let put = 0;
    const { solve } = makeForecastCache(() => [AIR, minute]);
    const ask = (): FilmQuestion => {
      put += 1;
      return QUESTION;
    };
    const first = solve("film", ask);
    expect([solve("film", ask), put]).toEqual([first, 1]);
    minute = 1;
    expect([solve("film", ask), put]).toEqual([first, 2]);
    solve("another film", ask);
    expect(put).toBe(3);
  });

  it("until nobody has asked for it twice over", () => {
    const { solve, sweep } = makeForecastCache(always);
    const before = solve("film", () => QUESTION);
    sweep();
    sweep();
    expect(solve("film", () => QUESTION)).toBe(before);
    sweep();
    sweep();
    sweep();
    expect(solve("film", () => QUESTION)).not.toBe(before);
  });
});

it("what is kept is within three hundredths of what the model would say afresh", () => {
  const small = fc.record({
    rhPct: fc.double({ min: -0.6, max: 0.6, noNaN: true }),
    tempC: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
    meanLn: fc.double({ min: -0.015, max: 0.015, noNaN: true }),
    baseRhPct: fc.double({ min: 25, max: 80, noNaN: true }),
  });
  let kept = 0;
  fc.assert(
    fc.property(small, ({ rhPct, tempC, meanLn, baseRhPct }) => {
      const first = inAir({ rhPct: baseRhPct });
      const belief = {
        skin: { ...PRIOR_BELIEF.skin, meanLn },
        dryThrough: { ...PRIOR_BELIEF.dryThrough, meanLn },
      };
      const second = { ...inAir({ rhPct: baseRhPct + rhPct, tempC: AIR.tempC + tempC }), belief };
      if (!isKept(first, second)) return;
      kept += 1;
      const [old, fresh] = [first, second].map(({ spec, spells, ...options }) =>
        forecastFilm(spec, spells, options),
      );
      for (const quantity of ["skin", "dryThrough"] as const) {
        const [a, b] = [old![quantity], fresh![quantity]];
        if ("never" in a || "never" in b) continue;
        for (const point of ["earliestMs", "likelyMs", "latestMs"] as const)
          expect(Math.abs(Math.log(a[point] / b[point]))).toBeLessThan(0.03);
      }
    }),
    { numRuns: 150 },
  );
  expect(kept).toBeGreaterThan(10);
}, 60_000);
