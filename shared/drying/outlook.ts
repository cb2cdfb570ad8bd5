import type { AirSpell } from "./film.ts";
import { median, READING_RANGE, type Reading, SILENT_AFTER_MIN } from "./readings.ts";
import { type DailySwing, hourOfDay, swingByHour } from "./swing.ts";

const MIN_MS = 60_000;
const HOUR_MS = 60 * MIN_MS;

/** A heated room on a usual day, for a place where nothing was ever read. */
export const ASSUMED_AIR: Climate = { tempC: 22, rhPct: 45 };

/** Air without its speed. */
interface Climate {
  tempC: number;
  rhPct: number;
}

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
  const past = knownBy(withoutSpikes(readings), nowMs);
  const latest = past.at(-1);
  const timeline = (climates: readonly FromMs[], rest: Omit<AirTimeline, "spells">): AirTimeline => ({
    spells: toSpells(climates, fromMs, speedMs),
    ...rest,
  });
  if (latest === undefined) {
    const climate = lastKnown ?? ASSUMED_AIR;
    const basis = lastKnown === undefined ? "assumed" : "last known";
    return timeline([{ ...climate, fromMs }], { basis, outlook: "persistence" });
  }
  const current = lately(past, latest.atMs);
  const swing = swingOnce(readings, utcOffsetMin);
  const silentMs = latest.atMs + SILENT_AFTER_MIN * MIN_MS;
  const ahead =
    swing === undefined ? [] : swung(current, latest.atMs, Math.min(nowMs, silentMs), swing, utcOffsetMin);
  return timeline(
    [...measured(past, fromMs, nowMs), { ...current, fromMs: Math.min(nowMs, silentMs) }, ...ahead],
    {
      basis: silentMs >= Math.min(fromMs, nowMs) ? "measured" : "last known",
      outlook: swing === undefined ? "persistence" : "daily swing",
    },
  );
}

/** A climate that holds from a moment on. */
interface FromMs extends Climate {
  fromMs: number;
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

function knownBy(readings: readonly Reading[], nowMs: number): readonly Reading[] {
  const end = readings.findLastIndex((line) => line.atMs <= nowMs) + 1;
  return end === readings.length ? readings : readings.slice(0, end);
}

const LATELY_MS = 10 * MIN_MS;

/** The air of the last ten minutes' lines: one odd line does not move it. */
function lately(past: readonly Reading[], latestMs: number): Climate {
  const lines = past.slice(past.findLastIndex((line) => line.atMs < latestMs - LATELY_MS) + 1);
  return {
    tempC: median(lines.map((line) => line.tempC)) ?? ASSUMED_AIR.tempC,
    rhPct: median(lines.map((line) => line.rhPct)) ?? ASSUMED_AIR.rhPct,
  };
}

const PAST_SPELLS_MAX = 24;
/** Lines this near a spell's mean belong to it; doubled until the spells are few enough. */
const ALIKE: Climate = { tempC: 0.4, rhPct: 1 };

/** Each line stands for the time nearer to it than to its neighbours; alike ones in a row make one spell. */
function measured(past: readonly Reading[], fromMs: number, nowMs: number): FromMs[] {
  const steps = past
    .map((line, index) => {
      const before = past[index - 1];
      const after = past[index + 1];
      const startMs = before === undefined ? -Infinity : (before.atMs + line.atMs) / 2;
      const endMs = after === undefined ? Infinity : (line.atMs + after.atMs) / 2;
      return { line, fromMs: Math.max(startMs, fromMs), toMs: Math.min(endMs, nowMs) };
    })
    .filter((step) => step.toMs > step.fromMs);
  for (let slack = 1; ; slack *= 2) {
    const spells: (FromMs & { lastsMs: number })[] = [];
    for (const { line, fromMs, toMs } of steps) {
      const spell = spells.at(-1);
      const isAlike =
        spell !== undefined &&
        Math.abs(line.tempC - spell.tempC) <= ALIKE.tempC * slack &&
        Math.abs(line.rhPct - spell.rhPct) <= ALIKE.rhPct * slack;
      if (!isAlike) {
        spells.push({ fromMs, tempC: line.tempC, rhPct: line.rhPct, lastsMs: toMs - fromMs });
        continue;
      }
      spell.lastsMs += toMs - fromMs;
      const share = (toMs - fromMs) / spell.lastsMs;
      spell.tempC += share * (line.tempC - spell.tempC);
      spell.rhPct += share * (line.rhPct - spell.rhPct);
    }
    if (spells.length <= PAST_SPELLS_MAX) return spells;
  }
}

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
    const before = spells.at(-1) ?? current;
    const moves =
      Math.abs(next.tempC - before.tempC) >= MOVE_LEAST.tempC ||
      Math.abs(next.rhPct - before.rhPct) >= MOVE_LEAST.rhPct;
    if (moves) spells.push(next);
  }
  return spells;
}

/** Lines further apart than this are not compared. */
const NEIGHBOUR_MS = 15 * MIN_MS;

const cleaned = new WeakMap<readonly Reading[], readonly Reading[]>();

/** A line that both its neighbours disagree with gives way: median of three. Each array is cleaned once. */
function withoutSpikes(readings: readonly Reading[]): readonly Reading[] {
  const known = cleaned.get(readings);
  if (known !== undefined) return known;
  const clean = readings.map((line, index) => {
    const before = readings[index - 1];
    const after = readings[index + 1];
    const isAmong =
      before !== undefined &&
      after !== undefined &&
      line.atMs - before.atMs <= NEIGHBOUR_MS &&
      after.atMs - line.atMs <= NEIGHBOUR_MS;
    if (!isAmong) return line;
    const tempC = median([before.tempC, line.tempC, after.tempC]) ?? line.tempC;
    const rhPct = median([before.rhPct, line.rhPct, after.rhPct]) ?? line.rhPct;
    return { ...line, tempC, rhPct };
  });
  cleaned.set(readings, clean);
  return clean;
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
