import type { Reading } from "./reading.ts";
import { median } from "./readings.ts";
import { MIN_MS } from "#shared/time.ts";

/** Air without its speed. */
export interface Climate {
  tempC: number;
  rhPct: number;
}

/** A climate that holds from a moment on. */
export interface FromMs extends Climate {
  fromMs: number;
}

/** Whether two airs differ by this much or more. */
export const differ = (a: Climate, b: Climate, least: Climate): boolean =>
  Math.abs(a.tempC - b.tempC) >= least.tempC || Math.abs(a.rhPct - b.rhPct) >= least.rhPct;

const LATELY_MS = 10 * MIN_MS;

/** Median of the last ten minutes' lines before the newest; undefined of none. */
export function lately(past: readonly Reading[]): Climate | undefined {
  const latest = past.at(-1);
  if (latest === undefined) return undefined;
  const lines = past.slice(past.findLastIndex((line) => line.atMs < latest.atMs - LATELY_MS) + 1);
  return {
    tempC: median(lines.map((line) => line.tempC)) ?? latest.tempC,
    rhPct: median(lines.map((line) => line.rhPct)) ?? latest.rhPct,
  };
}

const SPELLS_MAX = 24;
/** Lines nearer than this to a spell's mean belong to it; doubled until the spells are few enough. */
const ALIKE: Climate = { tempC: 0.4, rhPct: 1 };

/**
 * The air between two moments in at most 24 spells. Each line stands for the time nearer to it than to its neighbours;
 * alike ones in a row make one spell, with their mean over time.
 */
export function measured(past: readonly Reading[], fromMs: number, toMs: number): FromMs[] {
  const first = Math.max(
    0,
    past.findLastIndex((line) => line.atMs <= fromMs),
  );
  const lines = past.slice(first).map((line, index, all) => ({
    tempC: line.tempC,
    rhPct: line.rhPct,
    fromMs: index === 0 ? fromMs : Math.max(fromMs, ((all[index - 1]?.atMs ?? line.atMs) + line.atMs) / 2),
    toMs: Math.min(toMs, (line.atMs + (all[index + 1]?.atMs ?? Infinity)) / 2),
  }));
  const steps = lines.filter((step) => step.toMs > step.fromMs);
  for (let slack = 1; ; slack *= 2) {
    const spells = alikeTogether(steps, { tempC: ALIKE.tempC * slack, rhPct: ALIKE.rhPct * slack });
    if (spells.length <= SPELLS_MAX) return spells;
  }
}

interface Step extends FromMs {
  toMs: number;
}

function alikeTogether(steps: readonly Step[], alike: Climate): FromMs[] {
  const spells: Step[] = [];
  for (const step of steps) {
    const spell = spells.at(-1);
    if (spell === undefined || differ(step, spell, alike)) {
      spells.push({ ...step });
      continue;
    }
    spell.toMs = step.toMs;
    const share = (step.toMs - step.fromMs) / (spell.toMs - spell.fromMs);
    spell.tempC += share * (step.tempC - spell.tempC);
    spell.rhPct += share * (step.rhPct - spell.rhPct);
  }
  return spells.map(({ fromMs, tempC, rhPct }) => ({ fromMs, tempC, rhPct }));
}

/** Lines further apart than this are not compared. */
const NEIGHBOUR_MS = 15 * MIN_MS;

const cleaned = new WeakMap<readonly Reading[], readonly Reading[]>();

/** A line that both its neighbours disagree with gives way: median of three. Each array is cleaned once. */
export function withoutSpikes(readings: readonly Reading[]): readonly Reading[] {
  const known = cleaned.get(readings);
  if (known !== undefined) return known;
  const clean = readings.map((line, index) => {
    const before = readings[index - 1];
    const after = readings[index + 1];
    if (before === undefined || line.atMs - before.atMs > NEIGHBOUR_MS) return line;
    if (after === undefined || after.atMs - line.atMs > NEIGHBOUR_MS) return line;
    return {
      ...line,
      tempC: middle(before.tempC, line.tempC, after.tempC),
      rhPct: middle(before.rhPct, line.rhPct, after.rhPct),
    };
  });
  cleaned.set(readings, clean);
  return clean;
}

const middle = (a: number, b: number, c: number): number =>
  Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
