import {
  airChangeOf,
  type FirstShown,
  firstShown,
  movedBy,
  type MovedFilm,
} from "#shared/kitchen/forecast/air-change.ts";
import type { AirChange, FilmForecast } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { HOUR_MS } from "#shared/time.ts";

/** Watches forecasts for what readings do to them. */
export interface AirNews {
  /** A film's forecast. `isFresh`: hands moved it, not the air; it is held against this from now on. */
  see: (
    key: string,
    film: { placeId: string; outlook: FilmForecast },
    nowMs: number,
    isFresh: boolean,
  ) => void;
  forget: (key: string) => void;
  /** What was learned has moved everything: each film is fresh when seen next. */
  forgetAll: () => void;
  /** The news that stands after a reading, or as time goes by. */
  after: (kitchen: Kitchen, nowMs: number, hasReading: boolean) => AirChange | undefined;
}

/** News lasts an hour; then what is shown is what counts. */
const KEPT_MS = HOUR_MS;

interface Watched {
  placeId: string;
  outlook: FilmForecast;
  shown: FirstShown;
}

/** Makes an empty watch. */
export function makeAirNews(): AirNews {
  const films = new Map<string, Watched>();
  let news: AirChange | undefined;

  return {
    see: (key, film, nowMs, isFresh) => {
      const before = isFresh ? undefined : films.get(key);
      films.set(key, { ...film, shown: before?.shown ?? firstShown(film.outlook, nowMs) });
    },
    forget: (key) => void films.delete(key),
    forgetAll: () => films.clear(),
    after: (kitchen, nowMs, hasReading) => {
      if (news !== undefined && nowMs - news.atMs >= KEPT_MS) {
        news = undefined;
        for (const film of films.values()) film.shown = firstShown(film.outlook, nowMs);
      }
      if (!hasReading) return news;
      const moved = [...films.values()].flatMap(({ placeId, outlook, shown }): MovedFilm[] => {
        const way = movedBy(shown, outlook, nowMs);
        return way === undefined ? [] : [{ placeId, way, shownAtMs: shown.atMs }];
      });
      const next = airChangeOf(kitchen, moved, nowMs);
      if (next !== undefined) news = { ...next, atMs: news?.atMs ?? next.atMs };
      return news;
    },
  };
}
