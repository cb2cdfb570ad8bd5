import { type Band, mapBand } from "#shared/drying/uncertainty/band.ts";
import type { Spans } from "#shared/kitchen/forecast/films.ts";
import { dryingPlaceOf } from "#shared/kitchen/model/lookups.ts";
import type { FilmForecast } from "#shared/kitchen/model/forecast.ts";
import { filmKey } from "#shared/kitchen/model/lookups.ts";
import type { Film, Tray } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { MIN_MS } from "#shared/time.ts";

export type Never = Extract<Band, { never: unknown }>;

/** One film of the plan, laid or to be laid, as its times are drawn: spans from its clock's start. */
export interface PlanFilm extends Spans {
  key: string;
  icing: string;
  place: string;
  /** The bowl it came from or will come from. */
  bowl: string;
  /** Of a film laid already: its clock's start, minutes from the plan's start (nought or less). */
  clockMin?: number;
}

/** A need that ends with a film: of one that a task of the plan lays, or of one laid already. */
export interface FilmWait {
  film: number;
  need: "wet" | "skin" | "dry through";
}

/** A film that is laid. */
export const filmLaid = (
  nowMs: number,
  tray: Tray,
  design: Design,
  { layer, clockStartMs, bowl }: Film,
  forecast: FilmForecast,
): PlanFilm => ({
  ...ofLayer(tray, design, layer),
  ...(bowl === undefined ? {} : { bowl: bowl.id }),
  ...spansFrom(forecast, clockStartMs),
  clockMin: (clockStartMs - nowMs) / MIN_MS,
});

/** A film to be laid, or in hand: its times count from when it is laid. */
export const filmAhead = (
  tray: Tray,
  design: Design,
  layer: number,
  { skin, dryThrough }: Spans,
): PlanFilm => ({ ...ofLayer(tray, design, layer), skin, dryThrough });

/** A forecast in moments, as spans from its clock's start. */
export const spansFrom = ({ skin, dryThrough }: Spans, startMs: number): Spans => ({
  skin: mapBand(skin, (ms) => ms - startMs),
  dryThrough: mapBand(dryThrough, (ms) => ms - startMs),
});

/** Layers of an icing and consistency still to be laid come out of one bowl, as far as is known. */
const ofLayer = (
  tray: Tray,
  design: Design,
  layer: number,
): Pick<PlanFilm, "key" | "icing" | "place" | "bowl"> => ({
  key: filmKey(tray.id, layer),
  icing: design.layers[layer]?.icingId ?? "",
  place: dryingPlaceOf(tray).placeId,
  bowl: `next ${design.layers[layer]?.icingId} ${design.layers[layer]?.consistency}`,
});

/** How long a film likely takes to get so far, min; Infinity where it never does. */
export function likelyMin(film: PlanFilm, need: FilmWait["need"]): number {
  if (need === "wet") return 0;
  const span = spanOf(film, need);
  return "never" in span ? Infinity : span.likelyMs / MIN_MS;
}

export const spanOf = ({ skin, dryThrough }: PlanFilm, need: Exclude<FilmWait["need"], "wet">): Band =>
  need === "skin" ? skin : dryThrough;

/** Why a tray with these films is never done. */
export const whyNeverOf = (films: readonly PlanFilm[]): Never | undefined =>
  films.flatMap(({ dryThrough, skin }) => [dryThrough, skin]).find((span): span is Never => "never" in span);
