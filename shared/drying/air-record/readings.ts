import type { Reading } from "./reading.ts";
import type { AirDoubt } from "#shared/drying/uncertainty/forecast.ts";
import { isSensor, stuckSinceMs } from "./stuck.ts";
import { HOUR_MS, MIN_MS } from "#shared/time.ts";

/** What the edges let in. */
export const READING_RANGE = {
  tempC: { min: -5, max: 120, unit: "°C" },
  rhPct: { min: 0, max: 100, unit: "% RH" },
} as const;

/** A sensor quiet for longer than this has fallen silent. */
export const SILENT_AFTER_MIN = 30;

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
