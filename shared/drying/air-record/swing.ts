import type { Reading } from "./reading.ts";
import { median } from "./readings.ts";
import { HOUR_MS } from "#shared/time.ts";

const HOURS = 24;
/** Days needed before the day's swing is believed, and the hours read that make a day one of them. */
const DAYS_LEAST = 7;
const HOURS_READ_LEAST = 12;
/** Each hour of the day is read on at least so many of them. */
const DAYS_OF_AN_HOUR_LEAST = 5;
/** A day not read round the clock has its level by the hours it was read, each less its usual swing: found by turns. */
const ROUNDS = 8;

/** How far each hour of the local day usually lies from its day's mean: 24 values each, summing to 0. */
export interface DailySwing {
  tempC: readonly number[];
  rhPct: readonly number[];
}

/**
 * The place's usual swing over the day: the median over the days of each hour's distance from that day's mean, so that
 * a door left open one morning does not count. Undefined with fewer than seven days read for half of their hours or more,
 * or with an hour of the day read on fewer than five of them.
 */
export function swingByHour(readings: readonly Reading[], utcOffsetMin = 0): DailySwing | undefined {
  const days = linesByDay(readings, utcOffsetMin).filter((hours) => hours.size >= HOURS_READ_LEAST);
  const isRead = (_: unknown, hour: number): boolean =>
    days.filter((day) => day.has(hour)).length >= DAYS_OF_AN_HOUR_LEAST;
  if (days.length < DAYS_LEAST || !Array.from({ length: HOURS }).every(isRead)) return undefined;
  return { tempC: swingOf(days, (line) => line.tempC), rhPct: swingOf(days, (line) => line.rhPct) };
}

/** The hour of the local day, 0–23. */
export function hourOfDay(atMs: number, utcOffsetMin: number): number {
  return Math.floor(atMs / HOUR_MS + utcOffsetMin / 60) % HOURS;
}

/** A day's lines by hour of the day. */
type Day = Map<number, Reading[]>;

function linesByDay(readings: readonly Reading[], utcOffsetMin: number): Day[] {
  const days = new Map<number, Day>();
  for (const line of readings) {
    const number = Math.floor((line.atMs / HOUR_MS + utcOffsetMin / 60) / HOURS);
    const day: Day = days.get(number) ?? new Map<number, Reading[]>();
    const hour = hourOfDay(line.atMs, utcOffsetMin);
    const lines = day.get(hour);
    if (lines === undefined) day.set(hour, [line]);
    else lines.push(line);
    days.set(number, day);
  }
  return [...days.values()];
}

function swingOf(days: readonly Day[], of: (line: Reading) => number): number[] {
  const means = days.map((day) => [...day].map(([hour, lines]) => ({ hour, mean: mean(lines.map(of)) })));
  let usual: number[] = Array.from({ length: HOURS }, () => 0);
  for (let round = 0; round < ROUNDS; round += 1) {
    const seen: number[][] = Array.from({ length: HOURS }, () => []);
    for (const hours of means) {
      const level = mean(hours.map(({ hour, mean }) => mean - (usual[hour] ?? 0)));
      for (const { hour, mean } of hours) seen[hour]?.push(mean - level);
    }
    const next = seen.map((deviations) => median(deviations) ?? 0);
    const level = mean(next);
    usual = next.map((value) => value - level);
  }
  return usual;
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
