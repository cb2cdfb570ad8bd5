import type { AirSpell } from "#shared/drying/film/air.ts";
import { ASSUMED_AIR } from "./assumed-air.ts";
import { type Climate, differ, type FromMs, lately, measured, withoutSpikes } from "./measured-air.ts";
import type { Reading } from "./reading.ts";
import { READING_RANGE, SILENT_AFTER_MIN, upTo } from "./readings.ts";
import { type DailySwing, hourOfDay, swingByHour } from "./swing.ts";
import { HOUR_MS, MIN_MS } from "#shared/time.ts";

/** The air of one place over a film's life, and what it rests on. */
export interface AirTimeline {
  /** Seconds from the film's start, the first at 0; each until the next, the last without end. */
  spells: AirSpell[];
  /** "measured": read while the film lay there, or in the half hour before. */
  basis: "measured" | "last known" | "assumed";
  outlook: "persistence" | "daily swing";
}

/**
 * The air from `fromMs` on: as measured until `nowMs`, averaged into at most 24 spells, then as it stands, moved by the
 * place's usual daily swing where a week of readings shows one. `readings` of one place, sorted (insertReading).
 */
export function airTimeline(
  readings: readonly Reading[],
  fromMs: number,
  nowMs: number,
  options: { speedMs: number; lastKnown?: Climate; utcOffsetMin?: number },
): AirTimeline {
  const { speedMs, lastKnown, utcOffsetMin = 0 } = options;
  const past = upTo(withoutSpikes(readings), nowMs);
  const latest = past.at(-1);
  const current = lately(past);
  if (latest === undefined || current === undefined) {
    const climate = { ...(lastKnown ?? ASSUMED_AIR), fromMs };
    const basis = lastKnown === undefined ? "assumed" : "last known";
    return { spells: toSpells([climate], fromMs, speedMs), basis, outlook: "persistence" };
  }
  const silentMs = latest.atMs + SILENT_AFTER_MIN * MIN_MS;
  const aheadMs = Math.min(nowMs, silentMs);
  const climates = measured(past, fromMs, aheadMs);
  const last = climates.at(-1);
  if (last === undefined || differ(last, current, MOVE_LEAST)) climates.push({ ...current, fromMs: aheadMs });
  const swing = swingOnce(readings, utcOffsetMin);
  if (swing !== undefined) climates.push(...swung(current, latest.atMs, aheadMs, swing, utcOffsetMin));
  return {
    spells: toSpells(climates, fromMs, speedMs),
    basis: silentMs >= Math.min(fromMs, nowMs) ? "measured" : "last known",
    outlook: swing === undefined ? "persistence" : "daily swing",
  };
}

function toSpells(climates: readonly FromMs[], startMs: number, speedMs: number): AirSpell[] {
  const first = Math.max(
    0,
    climates.findLastIndex((climate) => climate.fromMs <= startMs),
  );
  return climates.slice(first).map(({ fromMs, tempC, rhPct }, index) => ({
    fromS: index === 0 ? 0 : (fromMs - startMs) / 1000,
    air: { tempC: within(tempC, READING_RANGE.tempC), rhPct: within(rhPct, READING_RANGE.rhPct), speedMs },
  }));
}

const within = (value: number, range: { min: number; max: number }): number =>
  Math.min(range.max, Math.max(range.min, value));

const AHEAD_H = 48;
/** Part of the usual swing that is expected today. */
const SWING_TRUST = 0.8;
/** Smaller moves are not worth a spell of their own. */
const MOVE_LEAST: Climate = { tempC: 0.2, rhPct: 0.7 };

/** Hour by hour, the current air moved by the usual swing since its reading; after two days, the day's mean. */
function swung(
  current: Climate,
  readAtMs: number,
  fromMs: number,
  swing: DailySwing,
  utcOffsetMin: number,
): FromMs[] {
  const readHour = hourOfDay(readAtMs, utcOffsetMin);
  const at = (kind: keyof Climate, hour: number | undefined): number => {
    const then = hour === undefined ? 0 : (swing[kind][hour] ?? 0);
    return current[kind] + SWING_TRUST * (then - (swing[kind][readHour] ?? 0));
  };
  const spells: FromMs[] = [];
  const firstHour = Math.floor(fromMs / HOUR_MS) + 1;
  for (let ahead = 0; ahead <= AHEAD_H; ahead += 1) {
    const hourMs = (firstHour + ahead) * HOUR_MS;
    const hour = ahead < AHEAD_H ? hourOfDay(hourMs, utcOffsetMin) : undefined;
    const next = { fromMs: hourMs, tempC: at("tempC", hour), rhPct: at("rhPct", hour) };
    if (differ(next, spells.at(-1) ?? current, MOVE_LEAST)) spells.push(next);
  }
  return spells;
}

const swings = new WeakMap<readonly Reading[], { utcOffsetMin: number; swing: DailySwing | undefined }>();

/** The swing of an array of readings, worked out once: many films share one place. */
function swingOnce(readings: readonly Reading[], utcOffsetMin: number): DailySwing | undefined {
  const known = swings.get(readings);
  if (known?.utcOffsetMin === utcOffsetMin) return known.swing;
  const swing = swingByHour(readings, utcOffsetMin);
  swings.set(readings, { utcOffsetMin, swing });
  return swing;
}
