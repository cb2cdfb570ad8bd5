import { describe, expect, test } from "vitest";
import { airTimeline } from "#shared/drying/air-record/outlook.ts";
import { ASSUMED_AIR } from "#shared/drying/air-record/assumed-air.ts";
import type { Reading } from "#shared/drying/air-record/reading.ts";
import { insertReading } from "#shared/drying/air-record/insert-reading.ts";
import { swingByHour } from "#shared/drying/air-record/swing.ts";

const MIN = 60_000;
const HOUR = 60 * MIN;
const DAY = 24 * HOUR;
const START = Date.UTC(2026, 2, 2);

type Air = { tempC: number; rhPct: number };

const read = (fromMs: number, toMs: number, stepMin: number, air: (atMs: number) => Air): Reading[] =>
  Array.from({ length: Math.floor((toMs - fromMs) / (stepMin * MIN)) + 1 }, (_, k) => {
    const atMs = fromMs + k * stepMin * MIN;
    return { ...air(atMs), atMs, source: "sensor" };
  });

const steady = (): Air => ({ tempC: 22, rhPct: 45 });

/** A day that is warmest and driest at 14:00 UTC, on top of a slow change of weather. */
const swinging = (atMs: number): Air => {
  const swing = Math.cos((2 * Math.PI * (atMs / HOUR - 14)) / 24);
  const weather = Math.sin((atMs - START) / (3 * DAY));
  return { tempC: 21 + 2 * swing, rhPct: 50 - 6 * swing + 4 * weather };
};

/** Mean of the timeline between two moments, each air for as long as it holds. */
function meanRhPct(spells: readonly { fromS: number; air: Air }[], fromS: number, toS: number): number {
  const ends = spells.map((_, i) => spells[i + 1]?.fromS ?? Infinity);
  const parts = spells.map(({ fromS: startS, air }, i) => ({
    rhPct: air.rhPct,
    s: Math.max(0, Math.min(toS, ends[i]!) - Math.max(fromS, startS)),
  }));
  return parts.reduce((sum, part) => sum + part.rhPct * part.s, 0) / (toS - fromS);
}

describe("the air over a film, as measured", () => {
  test("steady air is one spell, now and on", () => {
    const readings = read(START, START + 3 * HOUR, 1, steady);
    expect(airTimeline(readings, START + HOUR, START + 3 * HOUR, { speedMs: 0.15 })).toEqual({
      spells: [{ fromS: 0, air: { tempC: 22, rhPct: 45, speedMs: 0.15 } }],
      basis: "measured",
      outlook: "persistence",
    });
  });

  test("a change shows within a minute of when it came, the newest air goes on", () => {
    const readings = read(START, START + 3 * HOUR, 1, (atMs) => ({
      tempC: 22,
      rhPct: atMs < START + 2 * HOUR ? 45 : 60,
    }));
    const { spells } = airTimeline(readings, START + HOUR, START + 3 * HOUR, { speedMs: 0.15 });
    expect(spells.map(({ air }) => air.rhPct)).toEqual([45, 60]);
    expect(Math.abs(spells[1]!.fromS - 3600)).toBeLessThanOrEqual(60);
  });

  test("a restless day is at most 24 spells and one for now, with the same mean", () => {
    const rhPct = (atMs: number): number =>
      50 + 12 * Math.sin(atMs / (17 * MIN)) + 5 * Math.sin(atMs / (190 * MIN));
    const readings = read(START, START + DAY, 1, (atMs) => ({ tempC: 22, rhPct: rhPct(atMs) }));
    const { spells } = airTimeline(readings, START + 2 * HOUR, START + DAY, { speedMs: 0.15 });
    expect(spells.length).toBeLessThanOrEqual(25);
    expect(spells.map(({ fromS }) => fromS)).toEqual(
      spells.map(({ fromS }) => fromS).toSorted((a, b) => a - b),
    );
    const lines = readings.filter(({ atMs }) => atMs >= START + 2 * HOUR);
    const mean = lines.reduce((sum, line) => sum + line.rhPct, 0) / lines.length;
    // Half a minute at each end is all that the two means differ in.
    expect(meanRhPct(spells, 0, 22 * 3600)).toBeCloseTo(mean, 1);
  });

  test("one wild line between two that agree is not air", () => {
    const readings = read(START, START + HOUR, 1, (atMs) => ({
      tempC: 22,
      rhPct: atMs === START + 30 * MIN ? 99 : 45,
    }));
    const { spells } = airTimeline(readings, START, START + HOUR, { speedMs: 0.15 });
    expect(spells.map(({ air }) => air.rhPct)).toEqual([45]);
    const last = [...readings.slice(0, -1), { ...readings.at(-1)!, rhPct: 99 }];
    expect(airTimeline(last, START, START + HOUR, { speedMs: 0.15 }).spells.at(-1)!.air.rhPct).toBe(45);
  });

  test("what was read after now, or before the film lay there, is not used", () => {
    const readings = read(START, START + 4 * HOUR, 10, (atMs) => ({
      tempC: 22,
      rhPct: 40 + ((atMs - START) / HOUR) * 5,
    }));
    const { spells } = airTimeline(readings, START + HOUR, START + 2 * HOUR, { speedMs: 0.15 });
    for (const { air } of spells) {
      expect(air.rhPct).toBeGreaterThanOrEqual(45);
      expect(air.rhPct).toBeLessThanOrEqual(50);
    }
  });

  test("a film laid in an hour from now starts in the air of then", () => {
    const readings = read(START, START + 8 * DAY, 30, swinging);
    const nowMs = START + 8 * DAY;
    const later = airTimeline(readings, nowMs + 5 * HOUR, nowMs, { speedMs: 0.15 });
    const from = airTimeline(readings, nowMs, nowMs, { speedMs: 0.15 });
    expect(later.spells[0]!.fromS).toBe(0);
    expect(meanRhPct(later.spells, 0, 3600)).toBeCloseTo(meanRhPct(from.spells, 5 * 3600, 6 * 3600), 6);
  });
});

describe("D15 With no readings the last known air is used, and the answer says so", () => {
  const lastKnown = { tempC: 24, rhPct: 61 };

  test("never read: what was last known elsewhere, else an assumed room", () => {
    const known = airTimeline([], START, START + HOUR, { speedMs: 0.5, lastKnown });
    expect(known.basis).toBe("last known");
    expect(known.spells).toEqual([{ fromS: 0, air: { ...lastKnown, speedMs: 0.5 } }]);
    const assumed = airTimeline([], START, START + HOUR, { speedMs: 0.5 });
    expect(assumed.basis).toBe("assumed");
    expect(assumed.spells).toEqual([{ fromS: 0, air: { ...ASSUMED_AIR, speedMs: 0.5 } }]);
  });

  test("read in the film's time or the half hour before: measured; longer before: last known", () => {
    const readings = read(START, START + HOUR, 5, () => lastKnown);
    const basisOf = (fromMs: number, nowMs: number) =>
      airTimeline(readings, fromMs, nowMs, { speedMs: 0.5 }).basis;
    expect(basisOf(START + HOUR + 30 * MIN, START + 2 * HOUR)).toBe("measured");
    expect(basisOf(START + HOUR + 31 * MIN, START + 2 * HOUR)).toBe("last known");
    expect(basisOf(START + 30 * MIN, START + 20 * HOUR)).toBe("measured");
    expect(basisOf(START + 30 * HOUR, START + 3 * HOUR)).toBe("last known");
  });
});

describe("the day's usual swing", () => {
  const week = read(START, START + 8 * DAY, 10, swinging);

  test("is found from a week and a day as the readings' store keeps it, by the local hour", () => {
    const kept = week.reduce((known: readonly Reading[], next) => insertReading(known, next), []);
    expect(kept.length).toBeLessThan(week.length / 2);
    const swing = swingByHour(kept, 60)!;
    for (let hour = 0; hour < 24; hour += 1) {
      const expected = Math.cos((2 * Math.PI * (hour + 0.5 - 15)) / 24);
      // The weather under it moves by up to a few percent within a day.
      expect(Math.abs(swing.tempC[hour]! - 2 * expected)).toBeLessThan(0.1);
      expect(Math.abs(swing.rhPct[hour]! + 6 * expected)).toBeLessThan(1);
    }
    expect(swing.rhPct.reduce((sum, value) => sum + value, 0)).toBeCloseTo(0, 9);
  });

  test("D27 takes seven days, each hour of the day read on five of them", () => {
    expect(swingByHour(week.filter(({ atMs }) => atMs >= START + 2 * DAY))).toBeUndefined();
    expect(swingByHour(week.filter(({ atMs }) => (atMs / HOUR) % 24 < 12))).toBeUndefined();
    expect(swingByHour([])).toBeUndefined();
    /** Two to seven in the morning, of so many days, were not read. */
    const without = (days: number): Reading[] =>
      week.filter(({ atMs }) => {
        const hour = Math.floor(((atMs - START) % DAY) / HOUR);
        return hour < 2 || hour >= 7 || atMs >= START + days * DAY;
      });
    expect(swingByHour(without(3))).toBeDefined();
    expect(swingByHour(without(4))).toBeUndefined();
  });

  test("D27 outlives a gap of five hours, as the readings' store keeps it, and is moved little by it", () => {
    const usual = swingByHour(week)!;
    // At any hour of the week's last day: its own day is begun, its first one half gone.
    for (const nowH of [7 * 24 + 9, 7 * 24 + 15, 8 * 24]) {
      const kept = week.filter(
        ({ atMs }) =>
          atMs <= START + nowH * HOUR &&
          atMs > START + (nowH - 8 * 24) * HOUR &&
          (atMs < START + 3 * DAY + 11 * HOUR || atMs >= START + 3 * DAY + 16 * HOUR),
      );
      const swing = swingByHour(kept)!;
      for (let hour = 0; hour < 24; hour += 1) {
        expect(Math.abs(swing.rhPct[hour]! - usual.rhPct[hour]!)).toBeLessThan(0.5);
        expect(Math.abs(swing.tempC[hour]! - usual.tempC[hour]!)).toBeLessThan(0.1);
      }
    }
  });

  test("is not moved by one odd day", () => {
    const odd = week.map((line) =>
      line.atMs >= START + 3 * DAY && line.atMs < START + 3 * DAY + 6 * HOUR ? { ...line, rhPct: 95 } : line,
    );
    const [usual, believed] = [swingByHour(week)!, swingByHour(odd)!];
    for (let hour = 0; hour < 24; hour += 1)
      expect(Math.abs(believed.rhPct[hour]! - usual.rhPct[hour]!)).toBeLessThan(1.2);
  });

  test("foretells the next day better than the air staying as it is", () => {
    const nowMs = START + 7 * DAY + 14 * HOUR;
    const known = week.filter(({ atMs }) => atMs <= nowMs);
    const timeline = airTimeline(known, nowMs, nowMs, { speedMs: 0.15 });
    expect(timeline.outlook).toBe("daily swing");
    const missedBy = (foretold: (hour: number) => number): number =>
      Array.from({ length: 24 }, (_, hour) =>
        Math.abs(foretold(hour) - swinging(nowMs + (hour + 0.5) * HOUR).rhPct),
      ).reduce((sum, miss) => sum + miss, 0) / 24;
    const swung = missedBy((hour) => meanRhPct(timeline.spells, hour * 3600, (hour + 1) * 3600));
    const stays = missedBy(() => swinging(nowMs).rhPct);
    expect(swung).toBeLessThan(stays / 3);
  });

  test("never foretells air that cannot be, and settles at the day's mean after two days", () => {
    const damp = week.map((line) => ({ ...line, rhPct: Math.min(100, line.rhPct + 46) }));
    const nowMs = START + 8 * DAY;
    const { spells } = airTimeline(damp, nowMs, nowMs, { speedMs: 0.15 });
    expect(Math.max(...spells.map(({ air }) => air.rhPct))).toBeLessThanOrEqual(100);
    expect(spells.at(-1)!.fromS).toBeLessThanOrEqual(49 * 3600);
    expect(spells.length).toBeLessThanOrEqual(50);
  });
});
