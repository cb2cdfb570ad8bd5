import type { Learned } from "#shared/drying/uncertainty/learning.ts";
import { orderForecast, trayForecast, turnsOf } from "#shared/kitchen/plan/finish.ts";
import type { FilmForecast } from "#shared/kitchen/model/forecast.ts";
import {
  CONSISTENCIES,
  dryingPlaceOf,
  forecastFilmOf,
  placeForecast,
  plannedFilmOf,
  type Solve,
  type Spans,
  usualFilm,
} from "#shared/kitchen/forecast/films.ts";
import { filmKey, type Kitchen, type Tray, filmLayersOf } from "#shared/kitchen/model/state.ts";
import type { AirNews } from "./air-news.ts";
import type { ForecastTables } from "./tables.ts";
import { makePlannedSpans } from "./planned-spans.ts";
import { MIN_MS } from "#shared/time.ts";

export interface ForecastTaskDeps {
  kitchen: () => Kitchen;
  nowMs: () => number;
  learned: () => Learned;
  solve: Solve;
  tables: ForecastTables;
  news: AirNews;
}

/** The forecaster's pieces of work, in steps that each ask the drying model at most once. */
export interface ForecastTasks {
  /** A tray's films, and its finish. `isTouched`: hands moved it, so what moves is no news of the air. */
  tray: (trayId: string, isTouched: boolean) => Generator<void>;
  place: (placeId: string) => Generator<void>;
  orders: () => Generator<void>;
}

/** A design has at most this many layers. */
const LAYERS_MOST = 12;

export function makeForecastTasks(deps: ForecastTaskDeps): ForecastTasks {
  const { solve, tables, news } = deps;
  const plannedSpans = makePlannedSpans(deps.learned, solve);
  let turns: { kitchen: Kitchen; minute: number; of: ReadonlyMap<string, number> } | undefined;

  function* doTray(trayId: string, isTouched: boolean): Generator<void> {
    const kitchen = deps.kitchen();
    const tray = kitchen.trays[trayId];
    const isAlive = tray !== undefined && tray.status.stage !== "packed";
    const layers = isAlive ? filmLayersOf(tray) : [];
    forgetFilms(trayId, layers);
    const design = isAlive ? kitchen.designs[tray.designId] : undefined;
    if (!isAlive || design === undefined) {
      tables.put("trays", trayId, undefined);
      return;
    }
    const { placeId } = dryingPlaceOf(tray);
    const films: Record<string, FilmForecast> = {};
    for (const layer of layers) {
      const key = filmKey(tray.id, layer);
      const outlook = forecastFilmOf(kitchen, tray, layer, deps.learned(), deps.nowMs(), solve);
      tables.put("films", key, outlook);
      if (outlook === undefined) continue;
      films[key] = outlook;
      news.see(key, { placeId, outlook }, deps.nowMs(), isTouched);
      yield;
    }
    const nowMs = deps.nowMs();
    const spansOf = (layer: number): Spans =>
      plannedSpans(kitchen, placeId, plannedFilmOf(kitchen, design, layer), nowMs);
    for (let layer = layers.length; layer < design.layers.length; layer += 1) {
      spansOf(layer);
      yield;
    }
    const turnAtMs = tray.status.stage === "queued" ? turnOf(kitchen, tray, nowMs) : nowMs;
    tables.put("trays", trayId, trayForecast({ kitchen, tray, films, spansOf, nowMs, turnAtMs }));
  }

  /** Kept for the minute. */
  function turnOf(kitchen: Kitchen, tray: Tray, nowMs: number): number {
    const minute = Math.floor(nowMs / MIN_MS);
    if (turns?.kitchen !== kitchen || turns.minute !== minute)
      turns = { kitchen, minute, of: turnsOf(kitchen, nowMs) };
    return Math.max(nowMs, turns.of.get(tray.id) ?? nowMs);
  }

  /** Films a tray no longer has: taken back, packed or archived. */
  function forgetFilms(trayId: string, layers: readonly number[]): void {
    for (let layer = 0; layer < LAYERS_MOST; layer += 1) {
      if (layers.includes(layer)) continue;
      const key = filmKey(trayId, layer);
      tables.put("films", key, undefined);
      news.forget(key);
    }
  }

  function* doPlace(placeId: string): Generator<void> {
    const kitchen = deps.kitchen();
    const place = kitchen.places[placeId];
    if (place === undefined) {
      tables.put("places", placeId, undefined);
      return;
    }
    const nowMs = deps.nowMs();
    for (const consistency of CONSISTENCIES) {
      plannedSpans(kitchen, placeId, usualFilm(kitchen, consistency), nowMs);
      yield;
    }
    tables.put("places", placeId, placeForecast(kitchen, place, deps.learned(), nowMs, solve));
  }

  function* doOrders(): Generator<void> {
    const kitchen = deps.kitchen();
    for (const orderId of new Set([
      ...Object.keys(tables.latest("orders")),
      ...Object.keys(kitchen.orders),
    ])) {
      const order = kitchen.orders[orderId];
      const outlook =
        order === undefined ? undefined : orderForecast(kitchen, order, tables.latest("trays"), deps.nowMs());
      tables.put("orders", orderId, outlook);
      yield;
    }
  }

  return { tray: doTray, place: doPlace, orders: doOrders };
}
