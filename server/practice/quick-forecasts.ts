import { dryFilm } from "#shared/drying/film.ts";
import type { Quantiles } from "#shared/drying/forecast.ts";
import { learn } from "#shared/drying/learning.ts";
import { type FilmOutlook, type Forecasts, NO_FORECASTS } from "#shared/kitchen/forecast.ts";
import { type FilmQuestion, filmLayersOf, forecastFilmOf, type Solve } from "#shared/kitchen/forecasting.ts";
import { aliveTrays, filmKey, type Kitchen, type Tray } from "#shared/kitchen/state.ts";
import type { Forecaster } from "../forecaster.ts";

/** An answer serves this long while nothing happens to its tray, kitchen time. */
const GOOD_FOR_MS = 45 * 60_000;
/** Standard normal quantile of 0.9. */
const TENTH_Z = 1.2815515655446004;

const UNTAUGHT = learn([]);

/** What a rehearsal asks of whoever forecasts: part of what the server's own forecaster offers. */
export type Forecasting = Pick<Forecaster, "current" | "touch" | "refresh" | "idle">;

/**
 * Forecasts of films good enough to rehearse by: one solve a film instead of a dozen, the spread taken as a plain
 * factor, and nothing learned. The trays', orders' and places' tables stay empty.
 */
export function quickForecasts(kitchen: () => Kitchen, nowMs: () => number): Forecasting {
  const kept = new Map<string, { tray: Tray; atMs: number; outlook: FilmOutlook }>();
  let forecasts = NO_FORECASTS;
  let isStale = true;

  function afresh(): Forecasts {
    const films: Record<string, FilmOutlook> = {};
    for (const tray of aliveTrays(kitchen())) {
      for (const layer of filmLayersOf(tray)) {
        const key = filmKey(tray.id, layer);
        const known = kept.get(key);
        const serves = known !== undefined && known.tray === tray && nowMs() - known.atMs < GOOD_FOR_MS;
        const outlook = serves
          ? known.outlook
          : forecastFilmOf(kitchen(), tray, layer, UNTAUGHT, nowMs(), oneSolve);
        if (outlook === undefined) continue;
        if (!serves) kept.set(key, { tray, atMs: nowMs(), outlook });
        films[key] = outlook;
      }
    }
    for (const key of kept.keys()) if (films[key] === undefined) kept.delete(key);
    return { ...NO_FORECASTS, atMs: nowMs(), films };
  }

  return {
    current: () => {
      if (isStale) forecasts = afresh();
      isStale = false;
      return forecasts;
    },
    touch: (events) => {
      isStale ||= events.some((event) => "trayId" in event);
    },
    refresh: () => {
      isStale = true;
    },
    idle: () => Promise.resolve(),
  };
}

const oneSolve: Solve = (_, { spec, spells, belief }: FilmQuestion) => {
  const times = dryFilm(spec, spells);
  const around = (quantity: "skin" | "dryThrough"): Quantiles => {
    const reached = times[quantity];
    if ("never" in reached) return reached;
    const likelyS = reached.s * Math.exp(belief[quantity].meanLn);
    const spread = Math.exp(TENTH_Z * belief[quantity].sdLn);
    return { earliestS: likelyS / spread, likelyS, latestS: likelyS * spread };
  };
  return { skin: around("skin"), dryThrough: around("dryThrough") };
};
