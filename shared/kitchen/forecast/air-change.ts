import type { Band } from "#shared/drying/uncertainty/band.ts";
import { type AirChange, type FilmForecast, hasMoved } from "#shared/kitchen/model/forecast.ts";
import { airAt } from "./air.ts";
import { byName } from "#shared/collections.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

/** A film's forecast as people first saw it, or last were told it moved. */
export interface FirstShown {
  atMs: number;
  skinMs: number;
  dryThroughMs: number;
}

/** What to hold a film's later forecasts against. Never counts as infinitely late. */
export const firstShown = ({ skin, dryThrough }: FilmForecast, atMs: number): FirstShown => ({
  atMs,
  skinMs: likelyMs(skin),
  dryThroughMs: likelyMs(dryThrough),
});

const likelyMs = (band: Band): number => ("never" in band ? Number.POSITIVE_INFINITY : band.likelyMs);

/** How a film moved against what was shown: what is still to come decides, the skin first. */
export function movedBy(
  before: FirstShown,
  now: FilmForecast,
  nowMs: number,
): "later" | "sooner" | undefined {
  for (const [shownMs, movedMs] of [
    [before.skinMs, likelyMs(now.skin)],
    [before.dryThroughMs, likelyMs(now.dryThrough)],
  ] as const) {
    if (shownMs === movedMs || (shownMs <= nowMs && movedMs <= nowMs)) continue;
    const leftMs = Math.min(shownMs, movedMs) - before.atMs;
    if (hasMoved(movedMs - shownMs, leftMs)) return movedMs > shownMs ? "later" : "sooner";
  }
  return undefined;
}

/** One film that a reading moved. */
export interface MovedFilm {
  placeId: string;
  way: "later" | "sooner";
  shownAtMs: number;
}

/** The news of the place where most films moved; undefined when none did. */
export function airChangeOf(
  kitchen: Kitchen,
  moved: readonly MovedFilm[],
  nowMs: number,
): AirChange | undefined {
  const places = byName(moved, (film) => film.placeId);
  const [most] = [...places].toSorted(
    ([a, here], [b, there]) => there.length - here.length || (a < b ? -1 : 1),
  );
  if (most === undefined) return undefined;
  const [placeId, films] = most;
  const sinceMs = Math.min(...films.map(({ shownAtMs }) => shownAtMs));
  const rhPctAt = (atMs: number): number => airAt(kitchen, placeId, atMs, atMs).spells[0]?.air.rhPct ?? 0;
  const later = films.filter(({ way }) => way === "later").length;
  return {
    atMs: nowMs,
    sinceMs,
    placeId,
    rhPctBy: Math.round((rhPctAt(nowMs) - rhPctAt(sinceMs)) * 10) / 10,
    later,
    sooner: films.length - later,
  };
}
