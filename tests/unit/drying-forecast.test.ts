import type { Band } from "#shared/drying/uncertainty/band.ts";
import { type Belief, PRIOR_BELIEF } from "#shared/drying/uncertainty/belief.ts";
import { waterSlopes } from "#shared/drying/uncertainty/water.ts";
import { describe, expect, test } from "vitest";
import { type Air, warmed } from "#shared/drying/film/air.ts";
import { type AirSpell, dryFilm, type FilmSpec, type Quantity } from "#shared/drying/film/film.ts";
import { factorReaching } from "#shared/drying/uncertainty/factor-reaching.ts";
import { type AirDoubt, forecastFilm } from "#shared/drying/uncertainty/forecast.ts";

const TOP_COAT: FilmSpec = { thicknessMm: 2.4, waterPct: 19 };
const ROOM: Air = { tempC: 22, rhPct: 45, speedMs: 0.15 };
const OVEN = warmed(ROOM, 65.6, 0.5);
const DOUBT: AirDoubt = { tempSdC: 1, rhSdPct: 4, speedSdLn: 0.3 };
/** Standard normal 90th percentile. */
const Z90 = 1.2815515655446004;
/** How far one standard deviation reaches before anything was learned. */
const SPREAD = Math.exp(PRIOR_BELIEF.skin.sdLn);
const always = (air: Air): AirSpell[] => [{ fromS: 0, air }];
const both = (meanLn: number, sdLn: number): Belief => ({
  skin: { meanLn, sdLn },
  dryThrough: { meanLn, sdLn },
});

/** A band that is reached, in seconds. */
function finite(times: Band): { earliestS: number; likelyS: number; latestS: number } {
  if ("never" in times) throw new Error(times.never.code);
  const { earliestMs, likelyMs, latestMs } = times;
  return { earliestS: earliestMs / 1000, likelyS: likelyMs / 1000, latestS: latestMs / 1000 };
}
function seconds(spells: AirSpell[], quantity: Quantity, timeScale = 1, film = TOP_COAT): number {
  const reached = dryFilm(film, spells, { timeScale })[quantity];
  if ("never" in reached) throw new Error(reached.never.code);
  return reached.s;
}

describe("the band of the kitchen's factor", () => {
  test.each(["skin", "dryThrough"] as const)(
    "D6 %s in one air: log-normal about the solver's time",
    (quantity) => {
      const { earliestS, likelyS, latestS } = finite(forecastFilm(TOP_COAT, always(ROOM))[quantity]);
      expect(likelyS).toBeCloseTo(seconds(always(ROOM), quantity), 3);
      expect(earliestS / likelyS).toBeCloseTo(SPREAD ** -Z90, 6);
      expect(latestS / likelyS).toBeCloseTo(SPREAD ** Z90, 6);
    },
  );

  test("D6 a learned factor moves the likeliest time and narrows the band, each quantity its own", () => {
    const belief = {
      skin: { meanLn: Math.log(1.3), sdLn: 0.1 },
      dryThrough: { meanLn: Math.log(0.8), sdLn: 0 },
    };
    const { skin, dryThrough } = forecastFilm(TOP_COAT, always(ROOM), { belief });
    expect(finite(skin).likelyS / seconds(always(ROOM), "skin")).toBeCloseTo(1.3, 6);
    expect(finite(skin).latestS / finite(skin).likelyS).toBeCloseTo(Math.exp(0.1 * Z90), 6);
    const { earliestS, likelyS, latestS } = finite(dryThrough);
    expect(likelyS / seconds(always(ROOM), "dryThrough")).toBeCloseTo(0.8, 6);
    expect([earliestS, latestS]).toEqual([likelyS, likelyS]);
  });

  test("D6 D8 across a move the factor stretches the clock, not the answer", () => {
    const spells = [
      { fromS: 0, air: ROOM },
      { fromS: 1200, air: OVEN },
    ];
    const { skin } = forecastFilm(TOP_COAT, spells);
    const { earliestS, likelyS, latestS } = finite(skin);
    expect(likelyS).toBeCloseTo(seconds(spells, "skin"), 3);
    expect(earliestS).toBeCloseTo(seconds(spells, "skin", SPREAD ** -Z90), 3);
    expect(latestS).toBeCloseTo(seconds(spells, "skin", SPREAD ** Z90), 3);
    expect(latestS / likelyS).toBeLessThan(1.25);
  });

  test.each([600, 7200, 30_000])(
    "D6 D8 moved after %i s, a dry-through's ends are the solver's within a hundredth",
    (movedS) => {
      const spells = [
        { fromS: 0, air: { ...ROOM, rhPct: 60 } },
        { fromS: movedS, air: { ...ROOM, tempC: 26, rhPct: 35, speedMs: 2 } },
      ];
      const { earliestS, likelyS, latestS } = finite(forecastFilm(TOP_COAT, spells).dryThrough);
      expect(likelyS).toBeCloseTo(seconds(spells, "dryThrough"), 3);
      for (const [endS, z] of [
        [earliestS, -Z90],
        [latestS, Z90],
      ] as const)
        expect(Math.abs(Math.log(endS / seconds(spells, "dryThrough", SPREAD ** z)))).toBeLessThan(0.01);
    },
  );
});

/** Random kitchens from a fixed seed: the band held against what the solver gives when all is drawn. */
test("D41 doubt about the water widens the band by what a point of it does to the time", () => {
  const belief = both(0, 0.1);
  const { skin } = forecastFilm(TOP_COAT, always(ROOM), { belief, waterSdPct: 0.3 });
  const { likelyS, latestS } = finite(skin);
  const slope = waterSlopes(TOP_COAT, ROOM).skin;
  expect(Math.log(latestS / likelyS)).toBeCloseTo(Z90 * Math.hypot(0.1, 0.3 * slope), 6);
  expect(likelyS).toBeCloseTo(seconds(always(ROOM), "skin"), 3);
  expect(slope).toBeGreaterThan(0.2);
});

describe("D6 the band against drawing it", () => {
  const draws = 1500;
  /** Two standard errors of a tenth percentile of so many draws are about 4 %. */
  const SLACK = 0.06;
  const normals = gaussian(20260806);
  const drawn = (
    spells: AirSpell[],
    doubt: AirDoubt,
    fromS: number,
    belief: Belief,
    quantity: Quantity,
  ): number[] =>
    Array.from({ length: draws }, () => {
      const [cold, damp, calm, factor] = [normals(), normals(), normals(), normals()];
      const moved = ({ tempC, rhPct, speedMs }: Air): Air => ({
        tempC: tempC + cold * doubt.tempSdC,
        rhPct: Math.min(Math.max(rhPct + damp * doubt.rhSdPct, 0), 100),
        speedMs: speedMs * Math.exp(calm * doubt.speedSdLn),
      });
      const airs = spells.map(({ fromS: s, air }) => ({ fromS: s, air: s >= fromS ? moved(air) : air }));
      const { meanLn, sdLn } = belief[quantity];
      const reached = dryFilm(TOP_COAT, airs, {
        timeScale: Math.exp(meanLn + factor * sdLn),
        until: quantity,
      })[quantity];
      return "s" in reached ? reached.s : Infinity;
    }).toSorted((a, b) => a - b);

  const moved = [
    { fromS: 0, air: ROOM },
    { fromS: 1200, air: { ...ROOM, rhPct: 60 } },
  ];
  const cases = [
    {
      name: "skin, still room, factor and air",
      quantity: "skin",
      spells: always(ROOM),
      fromS: 0,
      belief: PRIOR_BELIEF,
    },
    {
      name: "skin, still room, air alone",
      quantity: "skin",
      spells: always(ROOM),
      fromS: 0,
      belief: both(0, 0.01),
    },
    {
      name: "dry through, damp room",
      quantity: "dryThrough",
      spells: always({ ...ROOM, rhPct: 68 }),
      fromS: 0,
      belief: both(0.1, 0.15),
    },
    {
      name: "skin, moved to damper air that is in doubt",
      quantity: "skin",
      spells: moved,
      fromS: 1200,
      belief: both(0, 0.2),
    },
  ] as const;

  test.each(cases)(
    "D6 $name: 10th, 50th, 90th percentile within 6 %",
    ({ quantity, spells, fromS, belief }) => {
      const band = finite(
        forecastFilm(TOP_COAT, spells, { belief, doubt: DOUBT, doubtFromS: fromS })[quantity],
      );
      const sample = drawn([...spells], DOUBT, fromS, belief, quantity);
      const at = (share: number): number => sample[Math.floor(share * draws)]!;
      expect(Math.abs(Math.log(band.earliestS / at(0.1)))).toBeLessThan(SLACK);
      expect(Math.abs(Math.log(band.likelyS / at(0.5)))).toBeLessThan(SLACK);
      expect(Math.abs(Math.log(band.latestS / at(0.9)))).toBeLessThan(SLACK);
    },
  );
});

describe("doubt about the air", () => {
  const span = (rhPct: number, quantity: Quantity): number => {
    const options = { belief: both(0, 0.05), doubt: DOUBT };
    const { earliestS, latestS } = finite(
      forecastFilm(TOP_COAT, always({ ...ROOM, rhPct }), options)[quantity],
    );
    return Math.log(latestS / earliestS);
  };

  test("D6 it widens the band, and more the nearer the air comes to what icing can give up water to", () => {
    const spans = [30, 50, 65, 72].map((rhPct) => span(rhPct, "dryThrough"));
    expect(spans).toEqual(spans.toSorted((a, b) => a - b));
    expect(spans[3]! / spans[0]!).toBeGreaterThan(2);
  });

  test("D6 and so does a skin's, where the air is too damp for the film ever to dry through", () => {
    const doubt = { ...DOUBT, rhSdPct: 1 };
    const spanOf = (rhPct: number): number => {
      const forecast = forecastFilm(TOP_COAT, always({ ...ROOM, rhPct }), { doubt });
      expect("never" in forecast.dryThrough).toBe(rhPct > 81);
      return Math.log(finite(forecast.skin).latestS / finite(forecast.skin).earliestS);
    };
    expect(spanOf(82)).toBeGreaterThan(spanOf(80.5));
    expect(spanOf(83)).toBeGreaterThan(spanOf(82));
  });

  test("what has happened before the doubt begins keeps the factor's band", () => {
    const spells = always(OVEN);
    const options = { doubt: DOUBT, doubtFromS: 3600 };
    const known = finite(forecastFilm(TOP_COAT, spells).skin);
    const { earliestS, likelyS, latestS } = finite(forecastFilm(TOP_COAT, spells, options).skin);
    expect(likelyS).toBeCloseTo(known.likelyS, 3);
    expect(earliestS / known.earliestS).toBeCloseTo(1, 2);
    expect(latestS / known.latestS).toBeCloseTo(1, 2);
  });

  test("D5 a median that never dries is never, with its reason", () => {
    const { skin, dryThrough } = forecastFilm(TOP_COAT, always({ ...ROOM, rhPct: 87 }), { doubt: DOUBT });
    expect("never" in skin && skin.never.code).toBe("no-drying");
    expect("never" in dryThrough && dryThrough.never.code).toBe("no-drying");
  });

  test("D5 D7 a likely time with no latest one: the latest is 14 days, which means then or later", () => {
    const { dryThrough } = forecastFilm(TOP_COAT, always({ ...ROOM, rhPct: 79.5 }), { doubt: DOUBT });
    expect(finite(dryThrough).latestS).toBe(14 * 86_400);
    expect(finite(dryThrough).likelyS).toBeLessThan(5 * 86_400);
  });
});

describe("the factor that reaches a moment", () => {
  test("in one air it is that moment over the model's time", () => {
    const factor = factorReaching(TOP_COAT, always(ROOM), "skin", 1234);
    expect(factor! * seconds(always(ROOM), "skin")).toBeCloseTo(1234, 6);
  });

  // Half a percent: how far the solver's own time moves when its steps fall otherwise. A film that just misses
  // skinning in the oven skins much later: no factor gets it there at 1600 s, but one parts before from after.
  test.each([300, 1100, 1300, 1600, 4000])(
    "D8 across moves: a film quicker than it is there by %d s, a slower one is not",
    (atS) => {
      const spells = [
        { fromS: 0, air: ROOM },
        { fromS: 1200, air: OVEN },
        { fromS: 1500, air: ROOM },
      ];
      const factor = factorReaching(TOP_COAT, spells, "skin", atS)!;
      expect(seconds(spells, "skin", factor * 0.995)).toBeLessThanOrEqual(atS);
      expect(seconds(spells, "skin", factor * 1.005)).toBeGreaterThanOrEqual(atS);
    },
  );

  test("undefined where a film only grazes its threshold in the wind: in still air it is wetted again from below", () => {
    const film = { thicknessMm: 4.583, waterPct: 19.28, roomC: 22 };
    const spells = [
      { fromS: 0, air: { tempC: 17.95, rhPct: 18.284, speedMs: 2.6883 } },
      { fromS: 328.4, air: { tempC: 15.48, rhPct: 62.27, speedMs: 0.003 } },
    ];
    expect(factorReaching(film, spells, "skin", 5937)).toBeUndefined();
  });

  // Taken out of damp heat a thin film cools by two degrees a second. One factor in forty once led its sums out of all numbers
  // there, and such a film was said never to skin.
  test("D2 a thin film out of damp heat into a cool room skins at every factor, the later the slower it is", () => {
    const film = { thicknessMm: 0.35, waterPct: 16.1, roomC: 22 };
    const spells = [
      { fromS: 0, air: { tempC: 62, rhPct: 53.3, speedMs: 1.11 } },
      { fromS: 1091, air: { tempC: 14.4, rhPct: 59.1, speedMs: 0.16 } },
    ];
    const times = Array.from({ length: 240 }, (_, k) =>
      seconds(spells, "skin", Math.exp(-0.3 + k / 400), film),
    );
    expect(times).toEqual(times.toSorted((a, b) => a - b));
    expect(times.at(-1)).toBeLessThan(1400);
    const factor = factorReaching(film, spells, "skin", 2509)!;
    expect(Math.abs(seconds(spells, "skin", factor, film) / 2509 - 1)).toBeLessThan(1e-5);
  });

  test("only air before the moment counts", () => {
    const spells = [
      { fromS: 0, air: ROOM },
      { fromS: 2000, air: OVEN },
    ];
    expect(factorReaching(TOP_COAT, spells, "skin", 1900)).toBe(
      factorReaching(TOP_COAT, always(ROOM), "skin", 1900),
    );
  });

  test("undefined where the air until then is too damp, in one place or in two", () => {
    const damp = { ...ROOM, rhPct: 88 };
    const spells = [
      { fromS: 0, air: damp },
      { fromS: 600, air: { ...damp, rhPct: 92 } },
      { fromS: 5000, air: ROOM },
    ];
    expect(factorReaching(TOP_COAT, always(damp), "skin", 3000)).toBeUndefined();
    expect(factorReaching(TOP_COAT, spells, "dryThrough", 3000)).toBeUndefined();
  });

  test("undefined where air wetted the film on its way: a slow film took up less and may be done first", () => {
    const stiff = { thicknessMm: 1.56, waterPct: 9.5 };
    const spells = [
      { fromS: 0, air: { tempC: 43, rhPct: 97.8, speedMs: 1 } },
      { fromS: 2000, air: ROOM },
    ];
    const skinS = (timeScale: number): number => {
      const { skin } = dryFilm(stiff, spells, { timeScale });
      return "s" in skin ? skin.s : Infinity;
    };
    expect(skinS(0.5)).toBeLessThan(0.8 * skinS(0.3));
    expect(factorReaching(stiff, spells, "skin", 3000)).toBeUndefined();
    const damp = [{ fromS: 0, air: { ...ROOM, rhPct: 75 } }, spells[1]!];
    expect(factorReaching(TOP_COAT, damp, "dryThrough", 90_000)).toBeDefined();
  });
});

/** Box–Muller on a 32-bit linear congruential generator (Numerical Recipes' constants, memory). */
function gaussian(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (Math.imul(1_664_525, state) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
