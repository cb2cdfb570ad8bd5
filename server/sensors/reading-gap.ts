import { LIMITS } from "#shared/limits.ts";

/** A place's readings closer than this are not kept: repeats and floods. */
const APART_MS = 20_000;

/** Thins what hygrometers send, whichever way it comes: one reading each 20 s a place. */
export interface ReadingGap {
  /** Whether a reading of this moment is to be kept; it is then noted. */
  take: (place: string, atMs: number, nowMs: number) => boolean;
  /** It was not kept after all. */
  giveBack: (place: string, atMs: number) => void;
}

export function readingGap(): ReadingGap {
  /** By place, the moments it was read at, as far back as the kitchen takes any. */
  const keptAtMs = new Map<string, readonly number[]>();
  return {
    take: (place, atMs, nowMs) => {
      const key = place.toLowerCase();
      const kept = keptAtMs.get(key) ?? [];
      if (kept.some((otherMs) => Math.abs(atMs - otherMs) < APART_MS)) return false;
      keptAtMs.set(key, [...kept.filter((otherMs) => otherMs >= nowMs - LIMITS.pastMs), atMs]);
      return true;
    },
    giveBack: (place, atMs) => {
      const key = place.toLowerCase();
      const others = (keptAtMs.get(key) ?? []).filter((otherMs) => otherMs !== atMs);
      if (others.length === 0) keptAtMs.delete(key);
      else keptAtMs.set(key, others);
    },
  };
}
