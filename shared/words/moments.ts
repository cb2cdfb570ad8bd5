import type { KitchenUnits } from "#shared/units.ts";
import { DAY_MS } from "#shared/time.ts";
import { dayAndMinute } from "#shared/kitchen/model/calendar.ts";

const FAR_MS = 6 * DAY_MS;
/** Midday of a Monday, Universal Time. */
const MONDAY_MS = Date.UTC(2024, 0, 1, 12);

/** Moments of the kitchen's time in one locale. Twelve-hour clock in US kitchens, 24 hours elsewhere. */
export function makeMoments(locale: string, units: KitchenUnits, timeZone: string) {
  const dates = (fields: Intl.DateTimeFormatOptions): Intl.DateTimeFormat =>
    new Intl.DateTimeFormat(locale, { ...fields, timeZone });
  const hour = units === "us" ? "numeric" : "2-digit";
  const times = dates({ hour, minute: "2-digit" });
  const seconds = dates({ hour, minute: "2-digit", second: "2-digit" });
  const weekdays = dates({ weekday: "short" });
  const monthDays = dates({ day: "numeric", month: "short" });
  const longDays = new Intl.DateTimeFormat(locale, { weekday: "long", timeZone: "UTC" });
  const fullDates = dates({ weekday: "long", day: "numeric", month: "long", year: "numeric" });
  const shortDates = dates({ weekday: "short", day: "numeric", month: "short" });
  const shortDatesWithYear = dates({ weekday: "short", day: "numeric", month: "short", year: "numeric" });
  const time = (atMs: number): string => times.format(atMs);
  const day = (atMs: number): string => weekdays.format(atMs);
  const dayTime = (atMs: number): string => `${day(atMs)} ${time(atMs)}`;

  const dayOf = (atMs: number): number => dayAndMinute(atMs, timeZone).day;
  const isSameDay = (oneMs: number, otherMs: number): boolean =>
    Math.abs(oneMs - otherMs) < DAY_MS && dayOf(oneMs) === dayOf(otherMs);

  /** Whole days from now's day to another within the week: 0 today, 1 tomorrow. */
  const daysAhead = (atMs: number, nowMs: number): number => (dayOf(atMs) - dayOf(nowMs) + 7) % 7;

  /** "Fri 09:00" always with its day; farther than six days off, "12 Dec 09:00". */
  const whenWithDay = (atMs: number, nowMs: number): string =>
    Math.abs(atMs - nowMs) < FAR_MS ? dayTime(atMs) : `${monthDays.format(atMs)} ${time(atMs)}`;
  /** "14:02" today, else with its day. */
  const when = (atMs: number, nowMs: number): string =>
    isSameDay(atMs, nowMs) ? time(atMs) : whenWithDay(atMs, nowMs);

  function bandTimes(
    { earliestMs, latestMs }: { earliestMs: number; latestMs: number },
    nowMs: number,
  ): string {
    const until = isSameDay(earliestMs, latestMs) ? time(latestMs) : when(latestMs, nowMs);
    return `${when(earliestMs, nowMs)}–${until}`;
  }

  return {
    /** "14:32" or "2:32 PM". */
    time,
    /** "15:20–15:58", "Fri 22:40–Sat 01:10". */
    timeRange: (fromMs: number, toMs: number): string =>
      isSameDay(fromMs, toMs) ? times.formatRange(fromMs, toMs) : `${dayTime(fromMs)}–${dayTime(toMs)}`,
    timeToSecond: (atMs: number): string => seconds.format(atMs),
    /** "Fri". */
    day,
    /** "Fri 09:00". */
    dayTime,
    daysAhead,
    /** "Monday" of 0. */
    weekday: (index: number): string => longDays.format(MONDAY_MS + index * DAY_MS),
    /** "Fri 4 Dec 2026". */
    shortDate: (atMs: number): string => shortDatesWithYear.format(atMs),
    /** "Fri 4 Dec 09:00", for what is read on another day too. */
    dateTime: (atMs: number): string => `${shortDates.format(atMs)} ${time(atMs)}`,
    /** "Friday 4 December 2026". */
    date: (atMs: number): string => fullDates.format(atMs),
    when,
    whenWithDay,
    /** "14:16–14:22", "21:30–Fri 02:10": earliest to latest, each with its day where that is not today's or the first's. */
    bandTimes,
  };
}
