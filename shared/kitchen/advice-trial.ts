import { THINNER } from "../drying/compare.ts";
import type { Learned } from "../drying/learning.ts";
import { type Consistency, isPoured } from "../icing/quantities.ts";
import { trayOutlook, turnsOf } from "./finish.ts";
import type { Span } from "../drying/span.ts";
import type { Band, FilmOutlook } from "./forecast.ts";
import {
  dryingPlaceOf,
  filmLayersOf,
  forecastFilmOf,
  type PlannedFilm,
  plannedFilmOf,
  type Solve,
  type Spans,
  spansAt,
} from "./forecasting.ts";
import { filmKey, type Kitchen, type Tray } from "./state.ts";

const MIN_MS = 60_000;
/** Poured layers not yet laid are tried thinner down to a film that still covers, mm. Practice, no source. */
const THINNEST_MM = 1.5;

/** A tray as one choice would have it. */
export interface Tried {
  tray: Tray;
  solve: Solve;
  thinner?: boolean;
  /** A film not yet skinned skins within this, under heat. */
  heatMin?: number;
}

/** When a tray would be dry through so. Asks the drying model at most once between two steps. */
export function* finishWith(
  kitchen: Kitchen,
  tried: Tried,
  learned: Learned,
  nowMs: number,
): Generator<void, Band | undefined> {
  const { tray, solve, heatMin } = tried;
  const design = kitchen.designs[tray.designId];
  if (design === undefined) return undefined;
  const films: Record<string, FilmOutlook> = {};
  const layers = filmLayersOf(tray);
  for (const layer of layers) {
    const outlook = forecastFilmOf(kitchen, tray, layer, learned, nowMs, solve);
    if (outlook !== undefined)
      films[filmKey(tray.id, layer)] =
        heatMin === undefined ? outlook : { ...outlook, skin: heatedBand(outlook.skin, nowMs, heatMin) };
    yield;
  }
  const { placeId } = dryingPlaceOf(tray);
  const spans: Spans[] = [];
  for (let layer = layers.length; layer < design.layers.length; layer += 1) {
    const planned = plannedFilmOf(kitchen, design, layer);
    const own = spansAt(
      kitchen,
      placeId,
      tried.thinner === true ? thinned(planned, design.layers[layer]?.consistency) : planned,
      learned,
      nowMs,
      solve,
    );
    spans[layer] = heatMin === undefined ? own : { ...own, skin: heatedSpan(own.skin, heatMin) };
    yield;
  }
  const spansOf = (layer: number): Spans => spans[layer] ?? { skin: NEVER, dryThrough: NEVER };
  const turnAtMs = turnsOf(kitchen, nowMs).get(tray.id) ?? nowMs;
  return trayOutlook({ kitchen, tray, films, spansOf, nowMs, turnAtMs })?.finish;
}

const NEVER = { never: "" };

const thinned = (planned: PlannedFilm, consistency: Consistency | undefined): PlannedFilm => {
  if (consistency === undefined || !isPoured(consistency)) return planned;
  const { spec } = planned;
  const thicknessMm = Math.min(spec.thicknessMm, Math.max(THINNEST_MM, spec.thicknessMm * THINNER));
  return { ...planned, spec: { ...spec, thicknessMm } };
};

/** Half to half as much again of the usual time under heat, unless it skins sooner by itself. */
const heatedBand = (skin: Band, nowMs: number, heatMin: number): Band => {
  const ms = heatMin * MIN_MS;
  if ("never" in skin)
    return { earliestMs: nowMs + ms / 2, likelyMs: nowMs + ms, latestMs: nowMs + 1.5 * ms };
  return {
    earliestMs: Math.min(skin.earliestMs, nowMs + ms / 2),
    likelyMs: Math.min(skin.likelyMs, nowMs + ms),
    latestMs: Math.min(skin.latestMs, nowMs + 1.5 * ms),
  };
};

const heatedSpan = (skin: Span, heatMin: number): Span => {
  if ("never" in skin) return { earliestMin: heatMin / 2, likelyMin: heatMin, latestMin: 1.5 * heatMin };
  return {
    earliestMin: Math.min(skin.earliestMin, heatMin / 2),
    likelyMin: Math.min(skin.likelyMin, heatMin),
    latestMin: Math.min(skin.latestMin, 1.5 * heatMin),
  };
};
