import { tzOffset } from "@date-fns/tz";
import type { Settings } from "./vocabulary.ts";

const MIN_MS = 60_000;
const DAY_MS = 1440 * MIN_MS;
/** 1 January 1970 was a Thursday; weeks begin on Monday. */
const FIRST_WEEKDAY = 3;

type Hours = Pick<Settings, "timeZone" | "opening">;

/** When the kitchen opened, if it is open now. */
export function openSinceMs(settings: Hours, nowMs: number): number | undefined {
  const openedMs = openSpell(settings, nowMs)?.openedMs ?? Infinity;
  return openedMs > nowMs ? undefined : openedMs;
}

/** The first moment from this one on at which the kitchen is open: this one where it is, and where it never opens. */
export const openFromMs = (settings: Hours, fromMs: number): number =>
  Math.max(fromMs, openSpell(settings, fromMs)?.openedMs ?? fromMs);

/** When so much work is done that is begun at this moment and goes on only while the kitchen is open, ms. */
export function workedMs(settings: Hours, fromMs: number, workMs: number): number {
  let left = workMs;
  let atMs = fromMs;
  for (;;) {
    const { openedMs, closesMs } = openSpell(settings, atMs) ?? { openedMs: atMs, closesMs: Infinity };
    const startMs = Math.max(atMs, openedMs);
    if (left <= closesMs - startMs) return startMs + left;
    left -= closesMs - startMs;
    atMs = closesMs;
  }
}

/** A stretch of opening hours. */
interface OpenSpell {
  openedMs: number;
  closesMs: number;
}

/** The opening hours that hold at a moment, or those that come next; undefined where there are none. */
function openSpell({ timeZone, opening }: Hours, atMs: number): OpenSpell | undefined {
  const today = Math.floor((atMs + tzOffset(timeZone, new Date(atMs)) * MIN_MS) / DAY_MS);
  for (let day = today - 1; day <= today + opening.length; day += 1) {
    const hours = opening[(day + FIRST_WEEKDAY) % opening.length];
    if (hours === null || hours === undefined) continue;
    const isOverNight = hours.toMin < hours.fromMin;
    if (day < today && !isOverNight) continue;
    const closesMs = momentAt((isOverNight ? day + 1 : day) * DAY_MS + hours.toMin * MIN_MS, timeZone);
    if (atMs < closesMs)
      return { openedMs: momentAt(day * DAY_MS + hours.fromMin * MIN_MS, timeZone), closesMs };
  }
  return undefined;
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
