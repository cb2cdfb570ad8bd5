import { nextClosingMs, openFromMs } from "#shared/kitchen/model/opening-hours.ts";
import type { Settings } from "#shared/kitchen/model/settings.ts";
import { DAY_MS, MIN_MS } from "#shared/time.ts";
import type { WorkHours } from "#shared/scheduling/work.ts";

/** Opening hours are followed so far ahead; from then on the kitchen counts as open, so that every plan has an end. */
const FOLLOWED_DAYS = 14;
const DAY_MIN = DAY_MS / MIN_MS;

/** A kitchen's opening hours in minutes from a moment on; one that names none is always open. */
export function openHours(settings: Pick<Settings, "timeZone" | "opening">, nowMs: number): WorkHours {
  const hours = { fromMin: [] as number[], toMin: [] as number[] };
  const untilMs = nowMs + FOLLOWED_DAYS * DAY_MS;
  let atMs = nowMs;
  for (;;) {
    const opensMs = openFromMs(settings, atMs);
    const closesMs = nextClosingMs(settings, atMs);
    hours.fromMin.push((opensMs - nowMs) / MIN_MS);
    if (closesMs >= untilMs) {
      hours.toMin.push(Infinity);
      return hours;
    }
    hours.toMin.push((closesMs - nowMs) / MIN_MS);
    atMs = closesMs;
  }
}

/** What two have in common. */
export function commonHours(one: WorkHours, other: WorkHours): WorkHours {
  const hours = { fromMin: [] as number[], toMin: [] as number[] };
  for (let [k, j] = [0, 0]; k < one.fromMin.length && j < other.fromMin.length;) {
    const fromMin = Math.max(one.fromMin[k]!, other.fromMin[j]!);
    const toMin = Math.min(one.toMin[k]!, other.toMin[j]!);
    if (fromMin < toMin) {
      hours.fromMin.push(fromMin);
      hours.toMin.push(toMin);
    }
    if (one.toMin[k]! <= other.toMin[j]!) k += 1;
    else j += 1;
  }
  return hours;
}

/** Whether these hold any that are truly planned: beyond those followed everyone counts as at work. */
export const isEverAtWork = ({ fromMin }: WorkHours): boolean =>
  (fromMin[0] ?? Infinity) < (FOLLOWED_DAYS - 1) * DAY_MIN;

/** The longest spell of work, min: without the last, from which on everyone counts as at work, unless there is no other. */
export const longestSpellMin = ({ fromMin, toMin }: WorkHours): number =>
  fromMin
    .slice(0, Math.max(1, fromMin.length - 1))
    .reduce((most, from, spell) => Math.max(most, toMin[spell]! - from), 0);

/** The latest moment at which work may begin that is to be done by another; −Infinity where there is none from the plan's start on. */
export function latestStartMin(
  { fromMin, toMin }: WorkHours,
  doneByMin: number,
  workMin: number,
  isDivisible = false,
): number {
  let left = workMin;
  for (let spell = fromMin.length - 1; spell >= 0; spell -= 1) {
    const from = fromMin[spell]!;
    const to = Math.min(toMin[spell]!, doneByMin);
    if (to - from >= left) return to - left;
    if (isDivisible && to > from) left -= to - from;
  }
  return -Infinity;
}

/** Minutes between two moments at which there is no work. */
export function closedMin({ fromMin, toMin }: WorkHours, startMin: number, endMin: number): number {
  let open = 0;
  for (let spell = 0; spell < fromMin.length && fromMin[spell]! < endMin; spell += 1)
    open += Math.max(0, Math.min(toMin[spell]!, endMin) - Math.max(fromMin[spell]!, startMin));
  return Math.max(0, endMin - startMin - open);
}

/** The closing that begins the first closed hours between two moments; undefined where there are none, or they have begun already. */
export const firstClosingMin = (
  { fromMin, toMin }: WorkHours,
  startMin: number,
  endMin: number,
): number | undefined =>
  toMin.find((to, spell) => to < endMin && (fromMin[spell + 1] ?? Infinity) > startMin);
