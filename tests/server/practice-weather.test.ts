import { describe, expect, test } from "vitest";
import { chanceFrom, seedFor } from "#server/practice/chance.ts";
import { atMinute, firstSeenMs } from "#server/practice/house.ts";
import { practiceWeather } from "#server/practice/weather.ts";
import { english } from "#shared/words/en/index.ts";

const HOUR_MS = 3_600_000;
const MIDNIGHT = atMinute(Date.UTC(2026, 4, 8, 12), 0);
const FRONT = MIDNIGHT + 12.5 * HOUR_MS;
const hours = (count: number): number[] =>
  Array.from({ length: count }, (_, hour) => MIDNIGHT + hour * HOUR_MS);

describe("the practice kitchen's weather", () => {
  test("stays within what a heated workroom sees, for a fortnight and many seeds", () => {
    for (let seed = 0; seed < 20; seed += 1) {
      const weather = practiceWeather(seed, FRONT, MIDNIGHT);
      for (const atMs of hours(14 * 24)) {
        const { tempC, rhPct } = weather(atMs);
        expect(tempC, `seed ${seed}`).toBeGreaterThan(18);
        expect(tempC, `seed ${seed}`).toBeLessThan(26);
        expect(rhPct, `seed ${seed}`).toBeGreaterThan(35);
        expect(rhPct, `seed ${seed}`).toBeLessThan(70);
      }
    }
  });

  test("the first front brings eight points or more in two hours, and ebbs by night", () => {
    for (let seed = 0; seed < 20; seed += 1) {
      const weather = practiceWeather(seed, FRONT, MIDNIGHT);
      const rise = weather(FRONT + 2 * HOUR_MS).rhPct - weather(FRONT).rhPct;
      expect(rise, `seed ${seed}`).toBeGreaterThan(8);
      expect(weather(FRONT + 9 * HOUR_MS).rhPct).toBeLessThan(weather(FRONT + 2 * HOUR_MS).rhPct);
    }
  });

  test("differs from day to day, before people come too", () => {
    for (let seed = 0; seed < 20; seed += 1) {
      const weather = practiceWeather(seed, FRONT, MIDNIGHT);
      const afternoons = Array.from(
        { length: 8 },
        (_, k) => weather(MIDNIGHT - (k * 24 + 9) * HOUR_MS).rhPct,
      );
      const range = Math.max(...afternoons) - Math.min(...afternoons);
      expect(range, `seed ${seed}`).toBeGreaterThan(2);
      expect(Math.min(...afternoons)).toBeGreaterThan(35);
      expect(Math.max(...afternoons)).toBeLessThan(70);
    }
  });

  test("is the same whenever it is asked", () => {
    const [one, other] = [practiceWeather(9, FRONT, MIDNIGHT), practiceWeather(9, FRONT, MIDNIGHT)];
    const backwards = hours(48).toReversed().map(other).toReversed();
    expect(hours(48).map(one)).toEqual(backwards);
  });

  test("jumps by no more between two lines of a hygrometer than a room does", () => {
    const weather = practiceWeather(2, FRONT, MIDNIGHT);
    for (let atMs = MIDNIGHT; atMs < MIDNIGHT + 72 * HOUR_MS; atMs += HOUR_MS / 15)
      expect(Math.abs(weather(atMs + HOUR_MS / 15).rhPct - weather(atMs).rhPct)).toBeLessThan(1);
  });
});

describe("chance from a seed", () => {
  test("is even, within its bounds, and repeats", () => {
    const [one, other] = [chanceFrom(1), chanceFrom(1)];
    const draws = Array.from({ length: 20_000 }, () => one.unit());
    expect(draws).toEqual(Array.from({ length: 20_000 }, () => other.unit()));
    expect(Math.min(...draws)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...draws)).toBeLessThan(1);
    for (let tenth = 0; tenth < 10; tenth += 1) {
      const share = draws.filter((draw) => Math.floor(draw * 10) === tenth).length / draws.length;
      // Five standard deviations of a binomial share of 0.1 in 20 000.
      expect(Math.abs(share - 0.1)).toBeLessThan(5 * Math.sqrt((0.1 * 0.9) / 20_000));
    }
  });

  test("normal draws have mean 0 and spread 1", () => {
    const { normal } = chanceFrom(2);
    const draws = Array.from({ length: 20_000 }, normal);
    const mean = draws.reduce((sum, draw) => sum + draw, 0) / draws.length;
    const spread = Math.sqrt(draws.reduce((sum, draw) => sum + (draw - mean) ** 2, 0) / draws.length);
    // Five standard errors.
    expect(Math.abs(mean)).toBeLessThan(5 / Math.sqrt(20_000));
    expect(Math.abs(spread - 1)).toBeLessThan(5 / Math.sqrt(2 * 20_000));
  });

  test("whole numbers reach both ends; one name's seed is not another's", () => {
    const { whole } = chanceFrom(3);
    const drawn = new Set(Array.from({ length: 500 }, () => whole(1, 6)));
    expect(drawn).toEqual(new Set([1, 2, 3, 4, 5, 6]));
    expect(seedFor(1, "wren")).not.toBe(seedFor(1, "ivo"));
    expect(seedFor(1, "wren")).not.toBe(seedFor(2, "wren"));
  });
});

test("the practice kitchen is first seen at twenty to two, in summer time and in winter", () => {
  for (const dayMs of [Date.UTC(2026, 0, 9, 9), Date.UTC(2026, 4, 8, 9)])
    expect(english("metric", "Europe/Dublin").format.time(firstSeenMs(dayMs))).toBe("13:40");
});
