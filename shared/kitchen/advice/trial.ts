import type { Band } from "#shared/drying/uncertainty/band.ts";
import { THINNER } from "#shared/drying/uncertainty/compare.ts";
import type { Learned } from "#shared/drying/uncertainty/learning.ts";
import { type Consistency, isPoured } from "#shared/icing/quantities.ts";
import { trayForecast } from "#shared/kitchen/plan/finish.ts";
import type { FilmTimes } from "#shared/drying/uncertainty/forecast.ts";
import type { FilmForecast, Forecasts } from "#shared/kitchen/model/forecast.ts";
import {
  dryingPlaceOf,
  filmOf,
  forecastFilmOf,
  type PlannedFilm,
  plannedFilmOf,
  type Solve,
  type Spans,
  spansAt,
} from "#shared/kitchen/forecast/films.ts";
import { filmKey, type Kitchen, type Tray, filmLayersOf } from "#shared/kitchen/model/state.ts";
import { MIN_MS } from "#shared/time.ts";

/** Poured layers not yet laid are tried thinner down to a film that still covers, mm. Practice, no source. */
const THINNEST_MM = 1.5;

/** A tray as one choice would have it. */
export interface Tried {
  tray: Tray;
  solve: Solve;
  thinner?: boolean;
  /** Films already laid dry as they would have. */
  inSameAir?: boolean;
  /** A film not yet skinned skins within this, under heat. */
  heatMin?: number;
}

/** What a choice is tried with on trays that stand alike. */
export interface Trial {
  kitchen: Kitchen;
  learned: Learned;
  /** As things stand. */
  forecasts: Forecasts;
  /** When hands come to each queued tray. */
  turns: ReadonlyMap<string, number>;
  /** Spans of the layers not yet laid, by layer: the same for all of them, so the first one's trial fills it. */
  spans: Spans[];
  /** Answers for films already laid, by what was asked, to the minute. */
  answers: Map<string, FilmTimes>;
  nowMs: number;
}

/** When a tray would be dry through so. Asks the drying model at most once between two steps. */
export function* finishWith(trial: Trial, tried: Tried): Generator<void, Band | undefined> {
  const { kitchen, learned, turns, spans, nowMs } = trial;
  const { tray, solve, heatMin } = tried;
  const design = kitchen.designs[tray.designId];
  if (design === undefined) return undefined;
  const films: Record<string, FilmForecast> = {};
  const layers = filmLayersOf(tray);
  for (const layer of layers) {
    const outlook = filmWith(trial, tried, layer);
    if (outlook !== undefined)
      films[filmKey(tray.id, layer)] =
        heatMin === undefined ? outlook : { ...outlook, skin: heatedBand(outlook.skin, nowMs, heatMin) };
    yield;
  }
  const { placeId } = dryingPlaceOf(tray);
  for (let layer = layers.length; layer < design.layers.length; layer += 1) {
    if (spans[layer] !== undefined) continue;
    const planned = plannedFilmOf(kitchen, design, layer);
    const own = spansAt(
      kitchen,
      placeId,
      tried.thinner === true ? thinned(planned, design.layers[layer]?.consistency) : planned,
      learned,
      nowMs,
      solve,
    );
    spans[layer] = heatMin === undefined ? own : { ...own, skin: heatedBand(own.skin, 0, heatMin) };
    yield;
  }
  const spansOf = (layer: number): Spans | undefined => spans[layer];
  const turnAtMs = turns.get(tray.id) ?? nowMs;
  return trayForecast({ kitchen, tray, films, spansOf, nowMs, turnAtMs })?.finish;
}

/** Its forecast where its air stays as it is, else worked out anew, once for all films of one kind, age and air. */
function filmWith(
  { kitchen, forecasts, learned, answers, nowMs }: Trial,
  { tray, solve, inSameAir }: Tried,
  layer: number,
): FilmForecast | undefined {
  const known = forecasts.films[filmKey(tray.id, layer)];
  if (inSameAir === true && known !== undefined) return known;
  const ageMin = Math.round((nowMs - (filmOf(kitchen, tray, layer)?.clockStartMs ?? nowMs)) / MIN_MS);
  return forecastFilmOf(kitchen, tray, layer, learned, nowMs, (key, question) => {
    const spells = question.spells.map(({ fromS, air }) => [Math.round(fromS / 60), air]);
    const asked = JSON.stringify([
      layer,
      ageMin,
      question.doubt,
      Math.round(question.doubtFromS / 60),
      spells,
    ]);
    const answer = answers.get(asked) ?? solve(key, question);
    answers.set(asked, answer);
    return answer;
  });
}

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
