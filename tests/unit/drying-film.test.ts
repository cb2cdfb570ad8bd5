import { describe, expect, test } from "vitest";
import { warmed } from "#shared/drying/film/air.ts";
import { DRY_THROUGH_X, HORIZON_S, ICING_DENSITY_KG_M3 } from "#shared/drying/film/constants.ts";
import {
  type Air,
  type AirSpell,
  dryFilm,
  type FilmSpec,
  type Reached,
  traceFilm,
} from "#shared/drying/film/film.ts";
import { filmStart, meetings } from "#shared/drying/film/run.ts";
import { FilmSolver } from "#shared/drying/film/solver.ts";

const TOP_COAT: FilmSpec = { thicknessMm: 2.4, waterPct: 19 };
const ROOM: Air = { tempC: 22, rhPct: 45, speedMs: 0.15 };
const CABINET = warmed(ROOM, 38, 2);
const OVEN = warmed(ROOM, 65.6, 0.5);
const always = (air: Air): AirSpell[] => [{ fromS: 0, air }];
/** Room, cabinet, a damp spell in which it takes up water, oven, room. */
const MOVES: AirSpell[] = [
  { fromS: 0, air: ROOM },
  { fromS: 900, air: CABINET },
  { fromS: 5000, air: { ...ROOM, rhPct: 95 } },
  { fromS: 9000, air: OVEN },
  { fromS: 9240, air: { ...ROOM, rhPct: 60 } },
];

function seconds(reached: Reached): number {
  if ("never" in reached) throw new Error(reached.never.code);
  return reached.s;
}

describe("D1 water is kept", () => {
  const atS = [0, 1, 60, 600, 899, 900, 1200, 6000, 9100, 20_000, 80_000];
  const films: FilmSpec[] = [
    TOP_COAT,
    { thicknessMm: 0.2, waterPct: 8 },
    { thicknessMm: 12, waterPct: 35, densityKgM3: 1200 },
  ];

  test.each(films)(
    "D1 $thicknessMm mm, $waterPct %: what went off is what the film lacks, to 1e-9",
    (film) => {
      const water = film.waterPct / 100;
      const dryKgM2 = ((film.densityKgM3 ?? ICING_DENSITY_KG_M3) * (1 - water) * film.thicknessMm) / 1000;
      for (const { meanX, lostKgM2 } of traceFilm(film, MOVES, atS)) {
        const lacksKgM2 = dryKgM2 * (water / (1 - water) - meanX);
        expect(Math.abs(lostKgM2 - lacksKgM2)).toBeLessThan(1e-9 * ((dryKgM2 * water) / (1 - water)));
      }
    },
  );

  test("in damp air a dried film takes water up again", () => {
    const [before, after] = traceFilm(TOP_COAT, MOVES, [5000, 9000]);
    expect(after!.lostKgM2).toBeLessThan(before!.lostKgM2);
    expect(after!.surfaceX).toBeGreaterThan(before!.surfaceX);
  });
});

describe("D2 times are roots", () => {
  test("D2 dry through is when the base is at its threshold", () => {
    const { dryThrough } = dryFilm(TOP_COAT, always(ROOM));
    const [there] = traceFilm(TOP_COAT, always(ROOM), [seconds(dryThrough)]);
    expect(Math.abs(there!.baseX - DRY_THROUGH_X)).toBeLessThan(2e-4);
  });

  test("D2 the state turns at that time, not a step before or after", () => {
    const { skin, dryThrough } = dryFilm(TOP_COAT, MOVES);
    const [s, d] = [seconds(skin), seconds(dryThrough)];
    const states = traceFilm(TOP_COAT, MOVES, [0.995 * s, 1.005 * s, 0.995 * d, 1.005 * d]);
    expect(states.map(({ skinned }) => skinned)).toEqual([false, true, true, true]);
    expect(states.map(({ dryThrough }) => dryThrough)).toEqual([false, false, false, true]);
  });

  test("D2 a film a hundredth thicker is later by about two hundredths, every time: no steps show", () => {
    const times = Array.from({ length: 30 }, (_, i) =>
      seconds(
        dryFilm({ ...TOP_COAT, thicknessMm: 2 * 1.01 ** i }, always({ ...ROOM, speedMs: 2 })).dryThrough,
      ),
    );
    const powers = times.slice(1).map((s, i) => Math.log(s / times[i]!) / Math.log(1.01));
    for (const power of powers) {
      expect(power).toBeGreaterThan(1.4);
      expect(power).toBeLessThan(2.1);
    }
  });
});

describe("D8 a film is followed through the places it stood in", () => {
  test("D8 half an hour in the cabinet brings dry through forward, by more than that half hour", () => {
    const moved = [
      { fromS: 0, air: ROOM },
      { fromS: 3600, air: CABINET },
      { fromS: 5400, air: ROOM },
    ];
    const sooner =
      seconds(dryFilm(TOP_COAT, always(ROOM)).dryThrough) - seconds(dryFilm(TOP_COAT, moved).dryThrough);
    expect(sooner).toBeGreaterThan(1800);
  });

  test("D8 what comes after a time does not change it", () => {
    const { skin } = dryFilm(TOP_COAT, always(OVEN));
    const after = [
      { fromS: 0, air: OVEN },
      { fromS: seconds(skin) + 1, air: { ...ROOM, rhPct: 100 } },
    ];
    expect(seconds(dryFilm(TOP_COAT, after).skin)).toBeCloseTo(seconds(skin), 0);
  });

  test("the icing warms under the oven, cools by evaporation in the room, and ends at the air's temperature", () => {
    const [laid, cooled, ended] = traceFilm(TOP_COAT, always(ROOM), [0, 1800, 200_000]);
    expect(laid!.tempC).toBe(22);
    expect(cooled!.tempC).toBeLessThan(20.5);
    expect(ended!.tempC).toBeCloseTo(22, 1);
    const [, hot] = traceFilm(TOP_COAT, MOVES, [9000, 9240]);
    expect(hot!.tempC).toBeGreaterThan(30);
  });

  test("an end state is at rest with the air: its water activity is the air's humidity", () => {
    const [ended] = traceFilm(TOP_COAT, always({ ...ROOM, rhPct: 62 }), [600_000]);
    expect(ended!.awSurface).toBeCloseTo(0.62, 3);
    expect(ended!.baseX).toBeCloseTo(ended!.surfaceX, 3);
  });
});

describe("options", () => {
  test("timeScale stretches the answer in one air exactly, and leaves the moves where they were", () => {
    const plain = dryFilm(TOP_COAT, always(ROOM));
    const slow = dryFilm(TOP_COAT, always(ROOM), { timeScale: 1.7 });
    expect(seconds(slow.skin)).toBeCloseTo(1.7 * seconds(plain.skin), 6);
    const moved = [
      { fromS: 0, air: { ...ROOM, rhPct: 90 } },
      { fromS: 3600, air: OVEN },
    ];
    const skin = (timeScale: number): number => seconds(dryFilm(TOP_COAT, moved, { timeScale }).skin) - 3600;
    expect(skin(1)).toBeGreaterThan(0);
    expect(skin(2)).toBeGreaterThan(1.5 * skin(1));
    expect(skin(2)).toBeLessThan(3 * skin(1));
  });

  test("warm icing is quicker to skin in the room", () => {
    const warm = dryFilm({ ...TOP_COAT, laidAtC: 35 }, always(ROOM));
    expect(seconds(warm.skin)).toBeLessThan(0.9 * seconds(dryFilm(TOP_COAT, always(ROOM)).skin));
  });

  test("hWm2K overrides what the air's speed would give", () => {
    const jet = { ...ROOM, hWm2K: 100 };
    const skin = (air: Air): number => seconds(dryFilm(TOP_COAT, always(air), { until: "skin" }).skin);
    expect(skin({ ...jet, speedMs: 5 })).toBe(skin(jet));
    expect(skin(jet)).toBeLessThan(skin({ ...ROOM, speedMs: 10 }));
  });

  test("what the horizon cuts off is told as never, with its days", () => {
    const { dryThrough } = dryFilm({ thicknessMm: 12, waterPct: 35 }, always({ ...ROOM, tempC: -5 }));
    expect(dryThrough).toEqual({
      never: { code: "too-slow", quantity: "dryThrough", tempC: -5, rhPct: 45, horizonDays: 14 },
    });
    expect(HORIZON_S).toBe(14 * 24 * 3600);
    expect("never" in dryFilm(TOP_COAT, always(ROOM), { horizonS: 3600 }).dryThrough).toBe(true);
  });

  test("air that cannot be is told as such", () => {
    const { skin } = dryFilm(TOP_COAT, always({ tempC: 120, rhPct: 80, speedMs: 1 }));
    expect(skin).toEqual({
      never: { code: "steam", tempC: 120, rhPct: 80 },
    });
  });
});

/** The cells and steps as used against eight times the cells and a thousandth of the tolerance. */
describe("fine enough", () => {
  const films: FilmSpec[] = [TOP_COAT, { thicknessMm: 0.5, waterPct: 15 }, { thicknessMm: 6, waterPct: 24 }];
  const airs: [string, AirSpell[]][] = [
    ["still room", always(ROOM)],
    ["fan", always({ ...ROOM, speedMs: 2 })],
    ["damp", always({ ...ROOM, rhPct: 72 })],
    ["oven", always(OVEN)],
    ["moves", MOVES],
  ];
  const times = (solver: FilmSolver, film: FilmSpec, spells: AirSpell[]): [number, number] => {
    solver.begin(filmStart(film, spells[0]!.air));
    meetings(spells).forEach(({ exchange }, i) => {
      solver.meet(exchange);
      solver.advance(spells[i + 1]?.fromS ?? HORIZON_S, "dryThrough");
    });
    return [solver.skinS, solver.dryThroughS];
  };

  test.each(films.flatMap((film) => airs.map(([name, spells]) => ({ film, name, spells }))))(
    "$film.thicknessMm mm, $film.waterPct %, $name: times within 2 %",
    ({ film, spells }) => {
      const [skin, dryThrough] = times(new FilmSolver(), film, spells);
      const [fineSkin, fineDryThrough] = times(new FilmSolver(160, 1e-3), film, spells);
      expect(Math.abs(Math.log(skin / fineSkin))).toBeLessThan(0.02);
      expect(Math.abs(Math.log(dryThrough / fineDryThrough))).toBeLessThan(0.02);
    },
  );
});
