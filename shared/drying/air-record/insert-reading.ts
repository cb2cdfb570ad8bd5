import type { Reading } from "./reading.ts";
import { DAY_MS, HOUR_MS } from "#shared/time.ts";

/** Every line is kept this long; older ones as one mean an hour. */
const RAW_MS = 48 * HOUR_MS;

/** Eight days: a week of whole days for the day's swing. 192 hourly means, and a line a minute for two days. */
export const READINGS_KEPT = { count: 3200, ms: 8 * DAY_MS } as const;

/** A sensor's lines are kept this far apart on average, but for the newest. */
const APART_MS = 20_000;

/**
 * The lines of one place, sorted by time, with `next` among them. A repeat changes nothing; a second line of the same
 * moment takes the first one's place. Of a sensor's lines never three stay within 20 s. Lines over 48 h older than the
 * newest become one mean an hour, those over `keep.ms` go; when there are more than `keep.count`, the oldest hours are
 * averaged early. Returns `readings` itself when nothing changes.
 */
export function insertReading<Line extends Reading>(
  readings: readonly Line[],
  next: Line,
  keep: { count: number; ms: number } = READINGS_KEPT,
): readonly Line[] {
  const newestMs = Math.max(next.atMs, readings.at(-1)?.atMs ?? next.atMs);
  if (next.atMs < newestMs - keep.ms) return readings;
  const at = readings.findLastIndex((line) => line.atMs <= next.atMs);
  const same = at >= 0 && readings[at]?.atMs === next.atMs ? readings[at] : undefined;
  if (same !== undefined && same.tempC === next.tempC && same.rhPct === next.rhPct) return readings;
  const isAveraged = hourOf(next.atMs) < hourOf(newestMs - RAW_MS);
  if (isAveraged && readings.some((line) => hourOf(line.atMs) === hourOf(next.atMs))) return readings;

  const [earlier, before, after] = [readings[at - 1], readings[at], readings[at + 1]];
  const isCrowded = (from: Line | undefined, middle: Line | undefined, to: Line | undefined): boolean =>
    from !== undefined && to !== undefined && to.atMs - from.atMs < APART_MS && middle?.source !== "typed";
  if (same === undefined && isCrowded(before, next, after)) return readings;

  const takesOver = same !== undefined || isCrowded(earlier, before, next);
  const lines = readings.toSpliced(takesOver ? at : at + 1, takesOver ? 1 : 0, next);
  averageHours(lines, hourOf((readings.at(-1)?.atMs ?? 0) - RAW_MS), hourOf(newestMs - RAW_MS));
  const firstKept = lines.findIndex((line) => line.atMs >= newestMs - keep.ms);
  if (firstKept > 0) lines.splice(0, firstKept);
  while (lines.length > keep.count) shortenOldest(lines);
  return lines;
}

const hourOf = (atMs: number): number => Math.floor(atMs / HOUR_MS);

/** Averages each hour from `fromHour` to before `toHour` in place. */
function averageHours(lines: Reading[], fromHour: number, toHour: number): void {
  let from = lines.findIndex((line) => hourOf(line.atMs) >= fromHour);
  for (let first = lines[from]; first !== undefined && hourOf(first.atMs) < toHour; first = lines[from]) {
    averageHourAt(lines, from);
    from += 1;
  }
}

/** Puts one mean in the place of the lines of the hour that starts at this index. */
function averageHourAt(lines: Reading[], from: number): void {
  const first = lines[from];
  if (first === undefined) return;
  const hour = hourOf(first.atMs);
  const inHour = lines.slice(from, from + 1);
  for (let i = from + 1; i < lines.length; i += 1) {
    const line = lines[i];
    if (line === undefined || hourOf(line.atMs) !== hour) break;
    inHour.push(line);
  }
  if (inHour.length < 2) return;
  const mean = (of: (line: Reading) => number): number =>
    inHour.reduce((sum, line) => sum + of(line), 0) / inHour.length;
  lines.splice(from, inHour.length, {
    ...first,
    atMs: Math.round(mean((line) => line.atMs)),
    tempC: toHundredths(mean((line) => line.tempC)),
    rhPct: toHundredths(mean((line) => line.rhPct)),
  });
}

const toHundredths = (value: number): number => Math.round(value * 100) / 100;

/** Averages the oldest hour that still has several lines, but for the newest hour; else drops the oldest line. */
function shortenOldest(lines: Reading[]): void {
  const newestHour = hourOf(lines.at(-1)?.atMs ?? 0);
  const from = lines.findIndex((line, index) => {
    const after = lines[index + 1];
    return after !== undefined && hourOf(line.atMs) < newestHour && hourOf(after.atMs) === hourOf(line.atMs);
  });
  if (from < 0) lines.shift();
  else averageHourAt(lines, from);
}
