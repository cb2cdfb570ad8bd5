import type { Reading } from "./reading.ts";
import type { AirDoubt } from "#shared/drying/uncertainty/forecast.ts";
import { isSensor, stuckSinceMs } from "./stuck.ts";
import { DAY_MS, HOUR_MS, MIN_MS } from "#shared/time.ts";

/** What the edges let in. */
export const READING_RANGE = {
  tempC: { min: -5, max: 120, unit: "°C" },
  rhPct: { min: 0, max: 100, unit: "% RH" },
} as const;

/** Every line is kept this long; older ones as one mean an hour. */
const RAW_MS = 48 * HOUR_MS;

/** Eight days: a week of whole days for the day's swing. 192 hourly means, and a line a minute for two days. */
export const READINGS_KEPT = { count: 3200, ms: 8 * DAY_MS } as const;

/** A sensor's lines are kept this far apart on average, but for the newest. */
const APART_MS = 20_000;

/** A sensor quiet for longer than this has fallen silent. */
export const SILENT_AFTER_MIN = 30;

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

/** The lines up to a moment, of sorted ones. */
export function upTo(readings: readonly Reading[], nowMs: number): readonly Reading[] {
  const end = readings.findLastIndex((line) => line.atMs <= nowMs) + 1;
  return end === readings.length ? readings : readings.slice(0, end);
}

/** What is odd about a place's readings; absent fields are in order. */
export interface AirTrouble {
  /** Age of the newest line; absent when there is none. */
  ageMin?: number;
  /** A sensor has sent nothing for over half an hour. */
  silentMin?: number;
  /** Its sensor is stuck, see stuck.ts. */
  frozen?: true;
  /** Humidity moves by 4 % an hour or more: about a tenth of the drying pull at 45 %. */
  changing?: { rhPctPerHour: number };
}

const CHANGING_PCT_PER_HOUR = 4;

/** Looks at the lines up to `nowMs`. */
export function airTrouble(readings: readonly Reading[], nowMs: number): AirTrouble {
  const past = upTo(readings, nowMs);
  const latest = past.at(-1);
  if (latest === undefined) return {};
  const ageMin = (nowMs - latest.atMs) / MIN_MS;
  const slope = slopeOnce(past);
  return {
    ageMin,
    ...(isSensor(latest) && ageMin > SILENT_AFTER_MIN ? { silentMin: ageMin } : {}),
    ...(stuckSinceMs(past) === undefined ? {} : { frozen: true }),
    ...(ageMin <= SILENT_AFTER_MIN && Math.abs(slope) >= CHANGING_PCT_PER_HOUR
      ? { changing: { rhPctPerHour: slope } }
      : {}),
  };
}

const TELLS_MS = SILENT_AFTER_MIN * MIN_MS;
/** Lines further apart than this leave a gap. */
const GAP_MS = 90 * MIN_MS;

/**
 * From a moment on, until when these lines tell the air without a gap, at most until `untilMs`: half an hour past the last, of
 * a sensor stuck by then past its last change. Lines up to `nowMs` close a gap.
 */
export function knownUntilMs(
  readings: readonly Reading[],
  fromMs: number,
  untilMs: number,
  nowMs: number,
): number {
  const past = upTo(readings, nowMs);
  let knownMs = fromMs;
  for (const { atMs } of past.slice(past.findLastIndex((line) => line.atMs < fromMs - TELLS_MS) + 1)) {
    if (atMs - knownMs > GAP_MS - TELLS_MS) break;
    knownMs = Math.max(knownMs, atMs + TELLS_MS);
  }
  const stuckMs = stuckSinceMs(upTo(past, untilMs)) ?? untilMs;
  return Math.min(untilMs, knownMs, Math.max(fromMs, stuckMs + TELLS_MS));
}

const SLOPE_MS = HOUR_MS;
const SLOPE_LINES_MAX = 24;

const slopes = new WeakMap<readonly Reading[], number>();

/** The slope of an array of readings, worked out once: many films share one place. */
function slopeOnce(past: readonly Reading[]): number {
  const known = slopes.get(past);
  if (known !== undefined) return known;
  const slope = slopePctPerHour(past);
  slopes.set(past, slope);
  return slope;
}

/** Median slope of humidity between pairs of lines of the last hour (Theil–Sen); 0 with fewer than 4 over 20 min. */
function slopePctPerHour(past: readonly Reading[]): number {
  const newestMs = past.at(-1)?.atMs ?? 0;
  const recent = past.slice(past.findIndex((line) => line.atMs >= newestMs - SLOPE_MS));
  const stride = Math.ceil(recent.length / SLOPE_LINES_MAX);
  const lines = recent.filter((_, index) => (recent.length - 1 - index) % stride === 0);
  const spanMs = newestMs - (lines[0]?.atMs ?? newestMs);
  if (lines.length < 4 || spanMs < 20 * MIN_MS) return 0;
  const slopes = lines.flatMap((late, index) =>
    lines
      .slice(0, index)
      .filter((early) => late.atMs - early.atMs >= spanMs / 4)
      .map((early) => ((late.rhPct - early.rhPct) / (late.atMs - early.atMs)) * HOUR_MS),
  );
  return median(slopes) ?? 0;
}

/** Middle value; undefined of nothing. */
export function median(values: readonly number[]): number | undefined {
  const sorted = values.toSorted((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)];
  const lower = sorted[Math.floor((sorted.length - 1) / 2)];
  return upper === undefined || lower === undefined ? undefined : (upper + lower) / 2;
}

/** Standard deviations of a fresh reading; from memory of small capacitive hygrometers' data sheets, and of dials. */
const SENSOR_DOUBT = { tempC: 0.5, rhPct: 2.5 };
const TYPED_DOUBT = { tempC: 1, rhPct: 4 };
/** Without any reading: a heated room's usual range. Age never makes it worse. */
const NO_READING_DOUBT = { tempC: 3, rhPct: 10 };
/** A room's air wanders off a reading as a random walk does: this much in an hour, twice that in four. */
const WANDER_PER_ROOT_HOUR = { tempC: 0.7, rhPct: 2.5 };
/** Air speed at a tray is judged, not read: within about 30 %. */
const SPEED_SD_LN = 0.3;

/**
 * How far the place's air may be from its newest reading: wider when typed, old, silent, stuck, or changing as it was read
 * last, however long ago. Growing older never makes it less.
 */
export function doubtOf(readings: readonly Reading[], nowMs: number): AirDoubt {
  const past = upTo(readings, nowMs);
  const latest = past.at(-1);
  if (latest === undefined) {
    return { tempSdC: NO_READING_DOUBT.tempC, rhSdPct: NO_READING_DOUBT.rhPct, speedSdLn: SPEED_SD_LN };
  }
  const fresh = isSensor(latest) ? SENSOR_DOUBT : TYPED_DOUBT;
  const ageH = (nowMs - (stuckSinceMs(past) ?? latest.atMs)) / HOUR_MS;
  const slope = slopeOnce(past);
  const drift = Math.abs(slope) >= CHANGING_PCT_PER_HOUR ? slope : 0;
  const spread = (own: number, wander: number, trend: number, most: number): number =>
    Math.min(most, Math.hypot(own, wander * Math.sqrt(ageH), trend));
  return {
    tempSdC: spread(fresh.tempC, WANDER_PER_ROOT_HOUR.tempC, 0, NO_READING_DOUBT.tempC),
    rhSdPct: spread(fresh.rhPct, WANDER_PER_ROOT_HOUR.rhPct, drift, NO_READING_DOUBT.rhPct),
    speedSdLn: SPEED_SD_LN,
  };
}
