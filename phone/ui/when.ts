import { dayAndMinute } from "#shared/kitchen/model/calendar.ts";
import { clockTime, dayTime } from "#shared/words/wording.ts";
import { DAY_MS } from "#shared/time.ts";

const FAR_MS = 6 * DAY_MS;

/** Offsets from UTC are whole quarters of an hour, so that a quarter lies in one day; Intl is far too slow for every label every second. */
const QUARTER_MS = 900_000;
const KEPT = 2000;
const days = new Map<string, number>();

function dayOf(atMs: number, timeZone: string): number {
  const key = `${Math.floor(atMs / QUARTER_MS)} ${timeZone}`;
  let day = days.get(key);
  if (day === undefined) {
    if (days.size >= KEPT) days.clear();
    day = dayAndMinute(atMs, timeZone).day;
    days.set(key, day);
  }
  return day;
}

const sameDay = (oneMs: number, otherMs: number, timeZone: string): boolean =>
  Math.abs(oneMs - otherMs) < DAY_MS && dayOf(oneMs, timeZone) === dayOf(otherMs, timeZone);

/** "14:02" today, else "Fri 09:00"; farther than six days off, "12 Dec 09:00". */
export function sayWhen(atMs: number, timeZone: string, nowMs: number): string {
  if (sameDay(atMs, nowMs, timeZone)) return clockTime(atMs, timeZone);
  return sayPickUp(atMs, timeZone, nowMs);
}

/** "Fri 09:00" always with its day; farther than six days off, "12 Dec 09:00". */
export function sayPickUp(atMs: number, timeZone: string, nowMs: number): string {
  if (Math.abs(atMs - nowMs) < FAR_MS) return dayTime(atMs, timeZone);
  const date = new Intl.DateTimeFormat("en-GB", { timeZone, day: "numeric", month: "short" }).format(atMs);
  return `${date} ${clockTime(atMs, timeZone)}`;
}

/** "14:16–14:22", "21:30–Fri 02:10": earliest to latest. */
export function sayBandTimes(
  band: { earliestMs: number; latestMs: number },
  timeZone: string,
  nowMs: number,
): string {
  const { earliestMs, latestMs } = band;
  const until = sameDay(earliestMs, latestMs, timeZone)
    ? clockTime(latestMs, timeZone)
    : sayWhen(latestMs, timeZone, nowMs);
  return `${sayWhen(earliestMs, timeZone, nowMs)}–${until}`;
}
