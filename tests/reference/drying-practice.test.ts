import { describe, expect, test } from "vitest";
import { type Air, warmed } from "#shared/drying/film/air.ts";
import { AIR_SPEED_MS } from "#shared/drying/film/constants.ts";
import { dryFilm, type FilmSpec, type Quantity } from "#shared/drying/film/film.ts";

/**
 * What decorators find: common practice, no source. The thresholds of skin and dry through are fitted to all of this at
 * once, so a change to any number of the model has to pass here.
 */
const TOP_COAT: FilmSpec = { thicknessMm: 2.4, waterPct: 19 };
const ROOM = { tempC: 22, rhPct: 45 };
/** Laid at the room's temperature, then put into heat. */
const LAID_IN_ROOM: FilmSpec = { ...TOP_COAT, roomC: ROOM.tempC };
const STILL: Air = { ...ROOM, speedMs: AIR_SPEED_MS.still };

function minutes(quantity: Quantity, air: Air, film = TOP_COAT): number {
  const reached = dryFilm(film, [{ fromS: 0, air }])[quantity];
  if ("never" in reached) throw new Error(reached.never.code);
  return reached.s / 60;
}
function within(value: number, low: number, high: number): void {
  expect(value).toBeGreaterThanOrEqual(low);
  expect(value).toBeLessThanOrEqual(high);
}

describe("D3 the practice table, top-coat 2.4 mm, 19 % water, laid at 22 °C", () => {
  const skin = minutes("skin", STILL);
  const dryThrough = minutes("dryThrough", STILL);

  test("D3 45 %, still: skin in 15–45 min, dry through in 8–12 h", () => {
    within(skin, 15, 45);
    within(dryThrough / 60, 8, 12);
  });

  test("D3 45 %, fan, at 22 °C: skin in 4–15 min and under half of still, dry through in 5–8 h", () => {
    const fan = { ...ROOM, speedMs: AIR_SPEED_MS.fan };
    within(minutes("skin", fan), 4, Math.min(15, skin / 2));
    within(minutes("dryThrough", fan) / 60, 5, 8);
  });

  test("D3 45 %, moving: between fan and still", () => {
    for (const quantity of ["skin", "dryThrough"] as const) {
      const [fan, moving, still] = [AIR_SPEED_MS.fan, AIR_SPEED_MS.moving, AIR_SPEED_MS.still].map(
        (speedMs) => minutes(quantity, { ...ROOM, speedMs }),
      );
      within(moving!, fan!, still!);
    }
  });

  test("D3 70 %, still: skin after more than 2 h, dry through in 2 to 4 times as long", () => {
    const damp = { ...STILL, rhPct: 70 };
    expect(minutes("skin", damp)).toBeGreaterThan(120);
    within(minutes("dryThrough", damp) / dryThrough, 2, 4);
  });

  test("D3 half as thick: skin within 25 %, dry through in under half", () => {
    const thin = { ...TOP_COAT, thicknessMm: 1.2 };
    within(minutes("skin", STILL, thin) / skin, 0.75, 1.25);
    expect(minutes("dryThrough", STILL, thin)).toBeLessThan(dryThrough / 2);
  });

  test("D3 low oven, 65.6 °C (150 °F), the room's moisture, gently moving air: skin in 1.5–5.5 min", () => {
    within(minutes("skin", warmed(ROOM, 65.6, AIR_SPEED_MS.moving), LAID_IN_ROOM), 1.5, 5.5);
  });

  test("D3 warm cabinet, 38 °C with a fan: skin in under 10 min, dry through in 2–4 h", () => {
    const cabinet = warmed(ROOM, 38, AIR_SPEED_MS.fan);
    expect(minutes("skin", cabinet, LAID_IN_ROOM)).toBeLessThan(10);
    within(minutes("dryThrough", cabinet, LAID_IN_ROOM) / 60, 2, 4);
  });

  test("D3 outline icing, 15.5 % water, 3 mm: skin in under 10 min, but not in under 2 even under a fan", () => {
    const outline = { thicknessMm: 3, waterPct: 15.5 };
    within(minutes("skin", STILL, outline), 2, 10);
    within(minutes("skin", { ...ROOM, speedMs: AIR_SPEED_MS.fan }, outline), 2, 10);
  });

  test("D3 a point of water changes the skin's time by a factor of 1.65 at most, at 18.5 %", () => {
    for (const speedMs of Object.values(AIR_SPEED_MS)) {
      const [drier, wetter] = [18.25, 18.75].map((waterPct) =>
        minutes("skin", { ...ROOM, speedMs }, { ...TOP_COAT, waterPct }),
      );
      within(Math.log(wetter! / drier!) / 0.5, 0, 0.5);
    }
  });
});

// The table's ranges are of its room at 22 °C: a hotter one may skin sooner than they say.
describe("at the same relative humidity, warmer air", () => {
  test.each(Object.entries(AIR_SPEED_MS))(
    "D3 %s: skin and dry-through get shorter from 16 to 35 °C",
    (_, speedMs) => {
      for (const quantity of ["skin", "dryThrough"] as const) {
        const times = [16, 22, 26, 30, 35].map((tempC) => minutes(quantity, { tempC, rhPct: 45, speedMs }));
        expect(times).toEqual(times.toSorted((a, b) => b - a));
        expect(times.at(-1)!).toBeLessThan(0.7 * times[0]!);
      }
    },
  );
});

describe("damp air", () => {
  test.each([86, 87, 90, 95, 100])(
    "D5 %d %%: never dries, above the deliquescence of sucrose, about 85 %%",
    (rhPct) => {
      for (const speedMs of Object.values(AIR_SPEED_MS)) {
        const { skin, dryThrough } = dryFilm(TOP_COAT, [{ fromS: 0, air: { ...ROOM, rhPct, speedMs } }]);
        const never = { code: "no-drying", rhPct, limitPct: 85 };
        expect({ skin, dryThrough }).toEqual({ skin: { never }, dryThrough: { never } });
      }
    },
  );

  test("D5 82 %: skins in the end, but its base stays soft, and it says below what it would not", () => {
    const { skin, dryThrough } = dryFilm(TOP_COAT, [{ fromS: 0, air: { ...STILL, rhPct: 82 } }]);
    expect("s" in skin && skin.s / 3600).toBeGreaterThan(6);
    expect(dryThrough).toEqual({
      never: { code: "too-damp", quantity: "dryThrough", rhPct: 82, limitPct: 81 },
    });
  });
});
