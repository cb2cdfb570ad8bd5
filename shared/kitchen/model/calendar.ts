import { tzOffset } from "@date-fns/tz/tzOffset";
import { DAY_MS, MIN_MS } from "#shared/time.ts";

/** The kitchen's clock and calendar. Time zones are IANA names. */

/** 1 January 1970 was a Thursday; weeks begin on Monday. */
export const FIRST_WEEKDAY = 3;

/** What the kitchen's clock shows: Monday 0 to Sunday 6, and whole minutes after midnight. */
export function dayAndMinute(atMs: number, timeZone: string): { day: number; minute: number } {
  const clockMs = atMs + offsetMs(timeZone, atMs);
  const days = Math.floor(clockMs / DAY_MS);
  return { day: (days + FIRST_WEEKDAY) % 7, minute: Math.floor((clockMs - days * DAY_MS) / MIN_MS) };
}

/**
 * The moment at which clocks in a time zone show this, both in ms since 1970, the clock's as if it were UTC. In the hour
 * that autumn repeats, the first.
 */
export function momentAt(clockMs: number, timeZone: string): number {
  // The offset that holds at the moment itself: a first guess, then once more across a change of clocks.
  const guessMs = clockMs - offsetMs(timeZone, clockMs);
  return clockMs - offsetMs(timeZone, guessMs);
}

/** When the kitchen's day of a moment began. */
export function dayStartMs(atMs: number, timeZone: string): number {
  const clockMs = atMs + offsetMs(timeZone, atMs);
  return momentAt(Math.floor(clockMs / DAY_MS) * DAY_MS, timeZone);
}

/** Clocks change on a quarter of an hour, so one holds for all of it. */
const QUARTER_MS = 15 * MIN_MS;
const KEPT = 2000;
const offsets = new Map<string, Map<number, number>>();

/** How far a time zone's clocks are ahead of UTC, ms. Kept, since forecasts ask for the same few moments hundreds of times. */
export function offsetMs(timeZone: string, atMs: number): number {
  let known = offsets.get(timeZone);
  if (known === undefined || known.size >= KEPT) offsets.set(timeZone, (known = new Map()));
  const quarter = Math.floor(atMs / QUARTER_MS);
  let ms = known.get(quarter);
  if (ms === undefined) known.set(quarter, (ms = tzOffset(timeZone, new Date(atMs)) * MIN_MS));
  return ms;
}
