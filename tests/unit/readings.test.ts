import { describe, expect, test } from "vitest";
import { chanceFrom } from "#server/practice/chance.ts";
import type { Reading } from "#shared/drying/air-record/reading.ts";
import { airTrouble, doubtOf } from "#shared/drying/air-record/readings.ts";
import { insertReading, READINGS_KEPT } from "#shared/drying/air-record/insert-reading.ts";

const MIN = 60_000;
const HOUR = 60 * MIN;
const DAY = 24 * HOUR;
const START = Date.UTC(2026, 2, 2, 6);

const line = (atMs: number, rhPct = 45.3, tempC = 22.1, source = "sensor"): Reading => ({
  atMs,
  tempC,
  rhPct,
  source,
});

/** A line every `stepMin` from `fromMs` to `toMs`, its humidity as told. */
const lines = (fromMs: number, toMs: number, stepMin: number, rhPct: (atMs: number) => number): Reading[] =>
  Array.from({ length: Math.floor((toMs - fromMs) / (stepMin * MIN)) + 1 }, (_, k) => {
    const atMs = fromMs + k * stepMin * MIN;
    return line(atMs, rhPct(atMs));
  });

const insertAll = (
  readings: readonly Reading[],
  keep: { count: number; ms: number } = READINGS_KEPT,
): readonly Reading[] =>
  readings.reduce((kept: readonly Reading[], next) => insertReading(kept, next, keep), []);

describe("a place's readings", () => {
  test("stay sorted when a line comes late", () => {
    const kept = insertAll([line(START), line(START + 2 * MIN), line(START + MIN, 46)]);
    expect(kept.map(({ atMs }) => atMs - START)).toEqual([0, MIN, 2 * MIN]);
  });

  test("a repeat changes nothing; a correction of the same moment takes its place", () => {
    const kept = insertAll([line(START), line(START + MIN)]);
    expect(insertReading(kept, line(START))).toBe(kept);
    expect(insertReading(kept, line(START, 50))).toEqual([line(START, 50), line(START + MIN)]);
    expect(kept[0]!.rhPct).toBe(45.3);
  });

  test("nine days of a line a minute: each of the last 48 h, one mean an hour before, eight days in all", () => {
    const rhPct = (atMs: number): number => 40 + ((atMs - START) / HOUR) * 0.1;
    const all = lines(START, START + 9 * DAY, 1, rhPct);
    const kept = insertAll(all);
    const newestMs = all.at(-1)!.atMs;
    const raw = kept.filter(({ atMs }) => atMs >= newestMs - 2 * DAY);
    expect(raw).toEqual(all.filter(({ atMs }) => atMs >= newestMs - 2 * DAY));
    const hours = kept.filter(({ atMs }) => atMs < newestMs - 2 * DAY);
    expect(hours).toHaveLength(6 * 24);
    for (const hour of hours) expect(hour.rhPct).toBeCloseTo(rhPct(hour.atMs), 1);
    expect(newestMs - kept[0]!.atMs).toBeLessThanOrEqual(8 * DAY);
    expect(kept.length).toBeLessThanOrEqual(READINGS_KEPT.count);
  });

  test("a line for an hour already averaged, or older than all that is kept, changes nothing", () => {
    const kept = insertAll(lines(START, START + 9 * DAY, 20, () => 45));
    expect(insertReading(kept, line(START + 5 * DAY + 7 * MIN, 80))).toBe(kept);
    expect(insertReading(kept, line(START, 80))).toBe(kept);
  });

  test("a sensor too chatty for the room there is loses detail of its oldest hours, not the hours", () => {
    const kept = insertAll(
      lines(START, START + 10 * HOUR, 0.5, () => 45),
      { count: 300, ms: 8 * DAY },
    );
    expect(kept.length).toBeLessThanOrEqual(300);
    expect(new Set(kept.map(({ atMs }) => Math.floor(atMs / HOUR))).size).toBe(11);
    expect(kept.filter(({ atMs }) => atMs >= START + 9 * HOUR)).toHaveLength(121);
  });

  test("a line a second crowds no other day out, its newest line counts, and what was typed stays", () => {
    const week = lines(START, START + 7 * DAY, 20, () => 45);
    const fromMs = START + 7 * DAY + MIN;
    const flood = Array.from({ length: 7200 }, (_, k) => line(fromMs + k * 1000, 45 + (k % 7) / 10));
    const typed = line(fromMs + 4500, 50, 22, "typed");
    const late = Array.from({ length: 60 }, (_, k) => line(fromMs + k * 1000 + 400, 60));
    const kept = insertAll([...week, ...flood.slice(0, 5), typed, ...flood.slice(5), ...late]);
    expect(kept[0]!.atMs).toBeLessThan(START + HOUR);
    expect(kept.at(-1)).toEqual(flood.at(-1));
    expect(kept).toContainEqual(typed);
    const flooded = kept.filter(({ atMs }) => atMs >= fromMs);
    expect(flooded.length).toBeGreaterThan(2 * 180);
    expect(flooded.length).toBeLessThan(2 * 360 + 10);
  });

  test("when all that is left is one line an hour, the oldest goes", () => {
    const kept = insertAll(
      lines(START, START + 30 * HOUR, 60, () => 45),
      { count: 24, ms: 8 * DAY },
    );
    expect(kept.map(({ atMs }) => (atMs - START) / HOUR)).toEqual(
      Array.from({ length: 24 }, (_, k) => k + 7),
    );
  });
});

describe("what is odd about a place's air", () => {
  const flat = lines(START, START + 6 * HOUR, 5, (atMs) => 45 + ((atMs / MIN) % 2) * 0.1);

  test("nothing, when a sensor sends and the air is steady", () => {
    expect(airTrouble(flat, START + 6 * HOUR + 2 * MIN)).toEqual({ ageMin: 2 });
    expect(airTrouble([], START)).toEqual({});
  });

  test("a sensor is silent after 30 min; a line typed by hand only grows old", () => {
    expect(airTrouble(flat, START + 6 * HOUR + 30 * MIN)).toEqual({ ageMin: 30 });
    expect(airTrouble(flat, START + 6 * HOUR + 31 * MIN)).toEqual({ ageMin: 31, silentMin: 31 });
    expect(airTrouble([line(START, 45, 22, "typed")], START + HOUR)).toEqual({ ageMin: 60 });
  });

  test("lines after now are not looked at", () => {
    expect(airTrouble(flat, START + HOUR + MIN)).toEqual({ ageMin: 1 });
  });

  test("a sensor that shows tenths and sends one same line for three hours is stuck", () => {
    const stuck = [...flat, ...lines(START + 6 * HOUR + 5 * MIN, START + 9 * HOUR + 5 * MIN, 5, () => 47.2)];
    expect(airTrouble(stuck, START + 9 * HOUR + 5 * MIN).frozen).toBe(true);
    expect(airTrouble(stuck, START + 9 * HOUR).frozen).toBeUndefined();
    expect(
      airTrouble([...stuck, line(START + 9 * HOUR + 6 * MIN, 47.4)], START + 9 * HOUR + 6 * MIN).frozen,
    ).toBeUndefined();
  });

  test("whole numbers that stay the same, few lines, and typed lines are no sign of that", () => {
    const coarse = lines(START, START + 5 * HOUR, 5, () => 45).map((reading) => ({ ...reading, tempC: 22 }));
    expect(airTrouble(coarse, START + 5 * HOUR).frozen).toBeUndefined();
    expect(
      airTrouble(
        lines(START, START + 10 * HOUR, 60, () => 45.3),
        START + 10 * HOUR,
      ).frozen,
    ).toBeUndefined();
    const typed = lines(START, START + 5 * HOUR, 5, () => 45.3).map((reading) => ({
      ...reading,
      source: "typed",
    }));
    expect(airTrouble(typed, START + 5 * HOUR).frozen).toBeUndefined();
  });

  const isStuck = (readings: readonly Reading[]): boolean =>
    airTrouble(readings, readings.at(-1)!.atMs).frozen === true;
  /** Two-minute lines for so many hours, as `air` has them by their number. */
  const sent = (hours: number, air: (k: number) => { rhPct: number; tempC: number }): Reading[] =>
    Array.from({ length: hours * 30 + 1 }, (_, k) => ({
      atMs: START + 2 * k * MIN,
      source: "sensor",
      ...air(k),
    }));

  test("D11 humidity stuck at the top of its scale is stuck, though the temperature moves", () => {
    const soaked = sent(8, (k) => ({ rhPct: 99.9, tempC: 21 + (k % 17) / 10 }));
    expect(isStuck(soaked)).toBe(true);
  });

  test("D11 a sensor of whole figures is stuck once both stood still for 12 h, not before, nor while one moves", () => {
    const whole = (hours: number): Reading[] => sent(hours, () => ({ rhPct: 45, tempC: 22 }));
    expect([11, 12].map((hours) => isStuck(whole(hours)))).toEqual([false, true]);
    expect(isStuck(sent(14, (k) => ({ rhPct: 45, tempC: k < 200 ? 22 : 21 })))).toBe(false);
    const averaged = [line(START - HOUR, 44.67, 21.67), ...whole(4)];
    expect(isStuck(averaged)).toBe(false);
  });

  test("D11 a stuck sensor that flicks by a tenth now and then is stuck, at its newest line too", () => {
    const flicking = sent(5, (k) => ({
      rhPct: k % 25 === 0 ? 45.4 : k % 40 === 0 ? 45.2 : 45.3,
      tempC: 22.1,
    }));
    expect(isStuck(flicking)).toBe(true);
    expect(flicking.at(-1)!.rhPct).toBe(45.4);
  });

  test("D11 a truly steady room is not stuck: a sensor's own noise, to a tenth, tells them apart", () => {
    for (let seed = 1; seed <= 50; seed += 1) {
      const chance = chanceFrom(seed);
      // Some hundredths of a percent, as a good sensor repeats itself; most cheap ones move more.
      const noise = (): number => chance.between(-0.12, 0.12) + chance.between(-0.04, 0.04);
      const toTenth = (value: number): number => Math.round(value * 10) / 10;
      const steady = sent(12, () => ({
        rhPct: toTenth(45.32 + noise()),
        tempC: toTenth(22.1 + noise() / 4),
      }));
      expect(isStuck(steady), `seed ${seed}`).toBe(false);
    }
  });

  test("humidity that climbs is told by its slope, and one wild line is not a climb", () => {
    const climbing = lines(START, START + 2 * HOUR, 5, (atMs) => 45 + (6 * (atMs - START)) / HOUR);
    expect(airTrouble(climbing, START + 2 * HOUR).changing?.rhPctPerHour).toBeCloseTo(6, 6);
    const wild = flat.map((reading, k) => (k === flat.length - 4 ? { ...reading, rhPct: 90 } : reading));
    expect(airTrouble(wild, START + 6 * HOUR).changing).toBeUndefined();
  });
});

describe("how far the air may be from its reading", () => {
  const steady = lines(START, START + 4 * HOUR, 5, (atMs) => 45 + ((atMs / MIN) % 2) * 0.1);
  const nowMs = START + 4 * HOUR;
  const fresh = doubtOf(steady, nowMs);

  test.each<[string, readonly Reading[], number]>([
    ["typed by hand", [line(nowMs, 45, 22, "typed")], nowMs],
    ["silent for an hour", steady, nowMs + HOUR],
    ["changing", lines(START, nowMs, 5, (atMs) => 45 + (8 * (atMs - START)) / HOUR), nowMs],
    ["stuck", [...steady, ...lines(nowMs + 5 * MIN, nowMs + 4 * HOUR, 5, () => 45.2)], nowMs + 4 * HOUR],
    ["without any reading", [], nowMs],
  ])("%s: wider than fresh from a sensor, never beyond what no reading leaves", (_, readings, atMs) => {
    const doubt = doubtOf(readings, atMs);
    expect(doubt.rhSdPct).toBeGreaterThan(fresh.rhSdPct * 1.2);
    expect(doubt.rhSdPct).toBeLessThanOrEqual(doubtOf([], atMs).rhSdPct);
    expect(doubt.tempSdC).toBeGreaterThanOrEqual(fresh.tempSdC);
  });

  test("D11 never falls as a sensor in changing air grows silent: what changed then may go on", () => {
    const climbing = lines(START, nowMs, 5, (atMs) => 45 + (9.7 * (atMs - START)) / HOUR);
    const ages = Array.from({ length: 300 }, (_, min) => doubtOf(climbing, nowMs + min * MIN).rhSdPct);
    expect(ages).toEqual(ages.toSorted((a, b) => a - b));
    expect(ages[0]).toBeGreaterThan(2 * fresh.rhSdPct);
    expect(airTrouble(climbing, nowMs + 31 * MIN).changing).toBeUndefined();
  });

  test("grows with age as a random walk does: four times the age, twice the wandering", () => {
    const wandered = (hours: number): number =>
      Math.sqrt(doubtOf(steady, nowMs + hours * HOUR).rhSdPct ** 2 - fresh.rhSdPct ** 2);
    expect(wandered(2) / wandered(0.5)).toBeCloseTo(2, 6);
  });
});
