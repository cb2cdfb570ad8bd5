import { median, type Reading } from "./readings.ts";

const HOUR_MS = 3_600_000;
const HOURS = 24;
/** Days needed before the day's swing is believed, and hours read of a day for their mean to be the day's. */
const DAYS_LEAST = 7;
const HOURS_READ_LEAST = 20;

/** How far each hour of the local day usually lies from its day's mean: 24 values each, summing to 0. */
export interface DailySwing {
  tempC: readonly number[];
  rhPct: readonly number[];
}

/**
 * The place's usual swing over the day: the median over the days of each hour's distance from that day's mean, so that
 * a door left open one morning does not count. Undefined with fewer than seven days of at least 20 read hours.
 */
export function swingByHour(readings: readonly Reading[], utcOffsetMin = 0): DailySwing | undefined {
  const days = linesByDay(readings, utcOffsetMin).filter((hours) => hours.size >= HOURS_READ_LEAST);
  if (days.length < DAYS_LEAST) return undefined;
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
    day.set(hour, [...(day.get(hour) ?? []), line]);
    days.set(number, day);
  }
  return [...days.values()];
}

function swingOf(days: readonly Day[], of: (line: Reading) => number): number[] {
  const seen: number[][] = Array.from({ length: HOURS }, () => []);
  for (const day of days) {
    const means = [...day].map(([hour, lines]) => ({ hour, mean: mean(lines.map(of)) }));
    const level = mean(means.map((hour) => hour.mean));
    for (const { hour, mean } of means) seen[hour]?.push(mean - level);
  }
  const usual = seen.map((deviations) => median(deviations) ?? 0);
  const level = mean(usual);
  return usual.map((value) => value - level);
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
