import { hasMoved } from "#shared/kitchen/model/forecast.ts";
import type { Pill } from "./pill-packing.ts";
import { MIN_MS } from "#shared/time.ts";

/** Against what a pill's forecast is held, and what its pill says since it moved. */
export interface Shift {
  likelyMs: number;
  /** When that was first shown. */
  shownAtMs: number;
  moved?: { note: "later" | "sooner"; atMs: number };
}
export type Shifts = ReadonlyMap<string, Shift>;

/** A pill says so this long, ms. */
const SAID_FOR_MS = 20 * MIN_MS;

/**
 * What to remember of the pills now shown, so that none moves on the wall without a word. Keys not shown any more are dropped,
 * and those without a forecast: a first one is no change.
 */
export function watchShifts(before: Shifts, pills: readonly Pill[], nowMs: number): Shifts {
  const foretold = pills.filter(({ is }) => is === undefined);
  return new Map(foretold.map((pill) => [pill.key, watch(before.get(pill.key), pill.likelyMs, nowMs)]));
}

function watch(held: Shift | undefined, likelyMs: number, nowMs: number): Shift {
  if (held === undefined) return { likelyMs, shownAtMs: nowMs };
  const byMs = likelyMs - held.likelyMs;
  const spokenOfMs = Math.abs(held.likelyMs - held.shownAtMs);
  if (hasMoved(byMs, spokenOfMs)) {
    return { likelyMs, shownAtMs: nowMs, moved: { note: byMs > 0 ? "later" : "sooner", atMs: nowMs } };
  }
  if (held.moved === undefined || nowMs - held.moved.atMs < SAID_FOR_MS) return held;
  return { likelyMs: held.likelyMs, shownAtMs: held.shownAtMs };
}
