import { THINNER } from "#shared/drying/uncertainty/compare.ts";
import type { Learned } from "#shared/drying/uncertainty/learning.ts";
import { type Consistency, isPoured } from "#shared/icing/poured.ts";
import type { SetsBy } from "#shared/kitchen/plan/plan-work.ts";
import type { FilmTimes } from "#shared/drying/uncertainty/forecast.ts";
import type { FilmForecast, Forecasts } from "#shared/kitchen/model/forecast.ts";
import {
  filmOf,
  forecastFilmOf,
  type PlannedFilm,
  plannedFilmOf,
  type Solve,
  type Spans,
  spansAt,
} from "#shared/kitchen/forecast/films.ts";
import { dryingPlaceOf } from "#shared/kitchen/model/lookups.ts";
import { filmKey, filmLayersOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
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
  /** Each wet layer is set at once by such a tool. */
  heat?: SetsBy;
}

/** What a choice is tried with on trays that stand alike. */
export interface Trial {
  kitchen: Kitchen;
  learned: Learned;
  /** As things stand. */
  forecasts: Forecasts;
  /** Spans of the layers not yet laid, by layer: the same for all of them, so the first one's trial fills it. */
  spans: Spans[];
  /** Answers for films already laid, by what was asked, to the minute. */
  answers: Map<string, FilmTimes>;
  nowMs: number;
}

/** What a tray's films would then be, those laid and those still to be laid. */
export interface TriedFilms {
  films: Readonly<Record<string, FilmForecast>>;
  spans: readonly Spans[];
}

/** The films of a tray as the choice would have them. Asks the drying model at most once between two steps. */
export function* filmsWith(trial: Trial, tried: Tried): Generator<void, TriedFilms> {
  const { kitchen, learned, spans, nowMs } = trial;
  const { tray, solve } = tried;
  const design = kitchen.designs[tray.designId];
  if (design === undefined) return { films: {}, spans };
  const films: Record<string, FilmForecast> = {};
  const layers = filmLayersOf(tray);
  for (const layer of layers) {
    const outlook = filmWith(trial, tried, layer);
    if (outlook !== undefined) films[filmKey(tray.id, layer)] = outlook;
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
    spans[layer] = own;
    yield;
  }
  return { films, spans };
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
  return forecastFilmOf(kitchen, tray, layer, learned, nowMs, (key, ask) => {
    const question = ask();
    const spells = question.spells.map(({ fromS, air }) => [Math.round(fromS / 60), air]);
    const asked = JSON.stringify([
      layer,
      ageMin,
      question.doubt,
      Math.round(question.doubtFromS / 60),
      spells,
    ]);
    const answer = answers.get(asked) ?? solve(key, () => question);
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
