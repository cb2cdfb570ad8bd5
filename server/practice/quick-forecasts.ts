import type { Band } from "#shared/drying/uncertainty/band.ts";
import { dryFilm } from "#shared/drying/film/film.ts";
import { learn } from "#shared/drying/uncertainty/learning.ts";
import { TENTH_Z } from "#shared/drying/uncertainty/normal.ts";
import { type FilmForecast, type Forecasts, NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { forecastFilmOf, type Solve } from "#shared/kitchen/forecast/films.ts";
import { aliveTrays, filmKey, filmLayersOf } from "#shared/kitchen/model/lookups.ts";
import type { Film, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Forecaster } from "#server/forecast/forecaster.ts";
import { HOUR_MS, SECOND_MS } from "#shared/time.ts";

/** An answer serves this long, kitchen time, while nothing happens to its film and the tray stays where it is. */
const GOOD_FOR_MS = 2 * HOUR_MS;

/** A design has at most this many layers. */
const LAYERS_MOST = 12;

const UNTAUGHT = learn([]);

/** What a rehearsal asks of whoever forecasts: part of what the server's own forecaster offers. */
export type Forecasting = Pick<Forecaster, "current" | "touch" | "refresh" | "idle">;

/**
 * Forecasts of films good enough to rehearse by: one solve a film instead of a dozen, the spread taken as a plain
 * factor, and nothing learned. The trays', orders' and places' tables stay empty.
 */
export function quickForecasts(kitchen: () => Kitchen, nowMs: () => number): Forecasting {
  const kept = new Map<string, { of: Film | Tray; tray: Tray; atMs: number; outlook: FilmForecast }>();
  const stale = new Set<string>();
  /** Changed in place: a rehearsal keeps no forecast. */
  const films: Record<string, FilmForecast> = {};
  let forecasts: Forecasts = { ...NO_FORECASTS, films };

  function outlookOf(tray: Tray, layer: number): FilmForecast | undefined {
    const key = filmKey(tray.id, layer);
    const known = kept.get(key);
    const of = tray.films.find((film) => film.layer === layer) ?? tray;
    if (known?.of === of && dryAlike(known.tray, tray) && nowMs() - known.atMs < GOOD_FOR_MS)
      return known.outlook;
    const outlook = forecastFilmOf(kitchen(), tray, layer, UNTAUGHT, nowMs(), oneSolve);
    if (outlook !== undefined) kept.set(key, { of, tray, atMs: nowMs(), outlook });
    return outlook;
  }

  function bringUpToDate(): void {
    for (const trayId of stale) {
      const tray = kitchen().trays[trayId];
      const layers = tray === undefined || tray.status.stage === "packed" ? [] : filmLayersOf(tray);
      for (let layer = 0; layer < LAYERS_MOST; layer += 1) {
        const key = filmKey(trayId, layer);
        const outlook = tray !== undefined && layers.includes(layer) ? outlookOf(tray, layer) : undefined;
        if (outlook !== undefined) films[key] = outlook;
        else if (kept.delete(key)) delete films[key];
      }
    }
    stale.clear();
    forecasts = { ...forecasts, atMs: nowMs() };
  }

  return {
    current: () => {
      if (stale.size > 0) bringUpToDate();
      return forecasts;
    },
    touch: (events) => {
      for (const event of events) if ("trayId" in event) stale.add(event.trayId);
    },
    refresh: () => {
      for (const { id } of aliveTrays(kitchen())) stale.add(id);
    },
    idle: () => Promise.resolve(),
  };
}

/** Whether a tray has had no other place and no other heat. */
const dryAlike = (before: Tray, now: Tray): boolean =>
  before.placements.length === now.placements.length &&
  before.heats.length === now.heats.length &&
  before.status.stage === now.status.stage;

const oneSolve: Solve = (_, ask) => {
  const { spec, spells, belief } = ask();
  const times = dryFilm(spec, spells);
  const around = (quantity: "skin" | "dryThrough"): Band => {
    const reached = times[quantity];
    if ("never" in reached) return reached;
    const likelyMs = reached.s * Math.exp(belief[quantity].meanLn) * SECOND_MS;
    const spread = Math.exp(TENTH_Z * belief[quantity].sdLn);
    return { earliestMs: likelyMs / spread, likelyMs, latestMs: likelyMs * spread };
  };
  return { skin: around("skin"), dryThrough: around("dryThrough") };
};
