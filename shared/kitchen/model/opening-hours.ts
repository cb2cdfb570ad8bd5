import { FIRST_WEEKDAY, momentAt, offsetMs } from "./calendar.ts";
import type { Settings } from "./settings.ts";
import { DAY_MS, MIN_MS } from "#shared/time.ts";

const DAY_MIN = 1440;

type Hours = Pick<Settings, "timeZone" | "opening">;

/** When the kitchen opened, if it is open now; of one that has not closed for a week, a week ago. */
export function openSinceMs(settings: Hours, nowMs: number): number | undefined {
  const openedMs = openSpell(settings, nowMs)?.openedMs ?? Infinity;
  return openedMs > nowMs ? undefined : openedMs;
}

/** The first moment from this one on at which the kitchen is open: this one where it is, and where it never opens. */
export const openFromMs = (settings: Hours, fromMs: number): number =>
  Math.max(fromMs, openSpell(settings, fromMs)?.openedMs ?? fromMs);

/** When the kitchen closes that is open at a moment, or opens next; Infinity where it does not for a week. */
export const nextClosingMs = (settings: Hours, atMs: number): number =>
  openSpell(settings, atMs)?.closesMs ?? Infinity;

/** The stretches between two moments in which the kitchen is closed; none of one without opening hours. */
export function closedSpells(
  settings: Hours,
  fromMs: number,
  toMs: number,
): { fromMs: number; toMs: number }[] {
  const spells: { fromMs: number; toMs: number }[] = [];
  let atMs = fromMs;
  while (atMs < toMs) {
    const opensMs = Math.min(openFromMs(settings, atMs), toMs);
    if (opensMs > atMs) spells.push({ fromMs: atMs, toMs: opensMs });
    atMs = opensMs < toMs ? nextClosingMs(settings, opensMs) : toMs;
  }
  return spells;
}

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

/**
 * When work that is not broken off is done, begun at this moment if it is done before closing, else at the first opening
 * that is long enough. Where none of a week is, it goes on over closing.
 */
export function doneInOneGoMs(settings: Hours, fromMs: number, workMs: number): number {
  let atMs = fromMs;
  for (let spells = 0; spells <= settings.opening.length; spells += 1) {
    const { openedMs, closesMs } = openSpell(settings, atMs) ?? { openedMs: atMs, closesMs: Infinity };
    const startMs = Math.max(atMs, openedMs);
    if (workMs <= closesMs - startMs) return startMs + workMs;
    atMs = closesMs;
  }
  return workedMs(settings, fromMs, workMs);
}

/** A week's hours with the closing at this moment so many minutes later; undefined where the kitchen does not close then, or would not any more. */
export function closingLater(
  { timeZone, opening }: Hours,
  closesMs: number,
  byMin: number,
): Settings["opening"] | undefined {
  if (closesMs === Infinity) return undefined;
  const today = Math.floor((closesMs + offsetMs(timeZone, closesMs)) / DAY_MS);
  for (const day of [today - 1, today]) {
    const hours = hoursOf(opening, day);
    if (hours === undefined || momentAt(hours.toMin * MIN_MS, timeZone) !== closesMs) continue;
    const weekday = (day + FIRST_WEEKDAY) % opening.length;
    const own = opening[weekday]!;
    const lastsMin = hours.toMin - hours.fromMin + byMin;
    if (lastsMin >= DAY_MIN) return undefined;
    const toMin = own.fromMin + lastsMin;
    return opening.with(weekday, { ...own, toMin: toMin > DAY_MIN ? toMin - DAY_MIN : toMin });
  }
  return undefined;
}

/** A stretch of opening hours, with those that touch it. */
interface OpenSpell {
  openedMs: number;
  /** Infinity where it does not close for a week. */
  closesMs: number;
}

/** The opening hours that hold at a moment, or those that come next; undefined where there are none. */
function openSpell({ timeZone, opening }: Hours, atMs: number): OpenSpell | undefined {
  const today = Math.floor((atMs + offsetMs(timeZone, atMs)) / DAY_MS);
  for (let day = today - 1; day <= today + opening.length; day += 1) {
    const hours = hoursOf(opening, day);
    if (hours === undefined || (day < today && hours.toMin <= today * DAY_MIN)) continue;
    if (atMs >= momentAt(hours.toMin * MIN_MS, timeZone)) continue;
    const { fromMin, toMin } = joined(opening, day, hours);
    return {
      openedMs: momentAt(fromMin * MIN_MS, timeZone),
      closesMs: toMin === Infinity ? Infinity : momentAt(toMin * MIN_MS, timeZone),
    };
  }
  return undefined;
}

/** A day's opening hours by the kitchen's clock, min since 1970. */
interface DayHours {
  fromMin: number;
  toMin: number;
}

/** Of a day counted from 1970. Hours that close sooner than they open close the next day. */
function hoursOf(opening: Settings["opening"], day: number): DayHours | undefined {
  const hours = opening[(day + FIRST_WEEKDAY) % opening.length];
  // From 24:00 to 00:00 is no time at all.
  if (hours === null || hours === undefined || hours.fromMin - hours.toMin === DAY_MIN) return undefined;
  const isOverNight = hours.toMin < hours.fromMin;
  return {
    fromMin: day * DAY_MIN + hours.fromMin,
    toMin: (isOverNight ? day + 1 : day) * DAY_MIN + hours.toMin,
  };
}

/** A day's hours with those of the days about it, as far as they touch: a week at most. */
function joined(opening: Settings["opening"], day: number, own: DayHours): DayHours {
  let { fromMin, toMin } = own;
  for (let k = 1; k <= opening.length; k += 1) {
    const before = hoursOf(opening, day - k);
    if (before === undefined || before.toMin < fromMin) break;
    fromMin = Math.min(fromMin, before.fromMin);
  }
  for (let k = 1; ; k += 1) {
    const after = hoursOf(opening, day + k);
    if (after === undefined || after.fromMin > toMin) break;
    if (k === opening.length) return { fromMin, toMin: Infinity };
    toMin = Math.max(toMin, after.toMin);
  }
  return { fromMin, toMin };
}
