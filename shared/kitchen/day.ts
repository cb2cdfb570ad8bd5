import { tzOffset } from "@date-fns/tz";
import { dayAndMinute } from "./clock-words.ts";
import type { Settings } from "./vocabulary.ts";

const MIN_MS = 60_000;
const DAY_MS = 1440 * MIN_MS;
/** 1 January 1970 was a Thursday; weeks begin on Monday. */
const FIRST_WEEKDAY = 3;

type Hours = Pick<Settings, "timeZone" | "opening">;

/** When the kitchen opened today, if it is open now. */
export function openSinceMs(settings: Hours, nowMs: number): number | undefined {
  const { day, minute } = dayAndMinute(nowMs, settings.timeZone);
  const hours = settings.opening[day];
  if (hours === null || hours === undefined || minute < hours.fromMin || minute >= hours.toMin)
    return undefined;
  return (Math.floor(nowMs / MIN_MS) - (minute - hours.fromMin)) * MIN_MS;
}

/** The first moment from this one on at which the kitchen is open: this one where it is, and where it never opens. */
export const openFromMs = (settings: Hours, fromMs: number): number => openSpell(settings, fromMs).fromMs;

/** When so much work is done that is begun at this moment and goes on only while the kitchen is open, ms. */
export function workedMs(settings: Hours, fromMs: number, workMs: number): number {
  let left = workMs;
  let spell = openSpell(settings, fromMs);
  while (left > spell.toMs - spell.fromMs) {
    left -= spell.toMs - spell.fromMs;
    spell = openSpell(settings, spell.toMs);
  }
  return spell.fromMs + left;
}

/** A stretch in which the kitchen is open; it may begin before or at the moment asked for, and never end. */
interface OpenSpell {
  fromMs: number;
  toMs: number;
}

/** What is left of the opening hours that hold at a moment, or those that come next. */
function openSpell({ timeZone, opening }: Hours, atMs: number): OpenSpell {
  const today = Math.floor((atMs + tzOffset(timeZone, new Date(atMs)) * MIN_MS) / DAY_MS);
  for (let day = today; day <= today + opening.length; day += 1) {
    const hours = opening[(day + FIRST_WEEKDAY) % opening.length];
    if (hours === null || hours === undefined) continue;
    const toMs = momentAt(day * DAY_MS + hours.toMin * MIN_MS, timeZone);
    if (atMs < toMs)
      return { fromMs: Math.max(atMs, momentAt(day * DAY_MS + hours.fromMin * MIN_MS, timeZone)), toMs };
  }
  return { fromMs: atMs, toMs: Infinity };
}

/**
 * The moment at which clocks in a time zone show this, both in ms since 1970, the clock's as if it were UTC. In the hour
 * that autumn repeats, the first.
 */
export function momentAt(clockMs: number, timeZone: string): number {
  // The offset that holds at the moment itself: a first guess, then once more across a change of clocks.
  const guessMs = clockMs - tzOffset(timeZone, new Date(clockMs)) * MIN_MS;
  return clockMs - tzOffset(timeZone, new Date(guessMs)) * MIN_MS;
}
