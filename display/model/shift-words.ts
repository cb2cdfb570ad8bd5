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
export const watchShifts = (before: Shifts, pills: readonly Pill[], nowMs: number): Shifts =>
  new Map(
    pills.flatMap(({ is, key, likelyMs }) =>
      is === undefined ? [[key, watch(before.get(key), likelyMs, nowMs)]] : [],
    ),
  );

function watch(held: Shift | undefined, likelyMs: number, nowMs: number): Shift {
  const fresh = { likelyMs, shownAtMs: nowMs };
  if (held === undefined) return fresh;
  const byMs = likelyMs - held.likelyMs;
  if (hasMoved(byMs, Math.abs(held.likelyMs - held.shownAtMs)))
    return { ...fresh, moved: { note: byMs > 0 ? "later" : "sooner", atMs: nowMs } };
  const isOld = held.moved !== undefined && nowMs - held.moved.atMs >= SAID_FOR_MS;
  return isOld ? { likelyMs: held.likelyMs, shownAtMs: held.shownAtMs } : held;
}
