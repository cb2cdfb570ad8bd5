import { dayStartMs, momentAt, offsetMs } from "#shared/kitchen/model/calendar.ts";
import { DAY_MS, HOUR_MS } from "#shared/time.ts";

/** When a kitchen is backed up each night, by its own clock. */
const NIGHT_HOUR = 3;

/** The latest such moment up to now. */
export function latestNightMs(nowMs: number, timeZone: string): number {
  const todayMs = nightMs(nowMs, timeZone);
  return todayMs <= nowMs ? todayMs : nightMs(dayStartMs(nowMs, timeZone) - HOUR_MS, timeZone);
}

export function nextNightMs(nowMs: number, timeZone: string): number {
  const todayMs = nightMs(nowMs, timeZone);
  // Noon tomorrow, however long today is.
  return todayMs > nowMs ? todayMs : nightMs(dayStartMs(nowMs, timeZone) + 1.5 * DAY_MS, timeZone);
}

/** Three o'clock on the day of a moment. */
function nightMs(atMs: number, timeZone: string): number {
  const startMs = dayStartMs(atMs, timeZone);
  return momentAt(startMs + offsetMs(timeZone, startMs) + NIGHT_HOUR * HOUR_MS, timeZone);
}
