import type { Learned } from "#shared/drying/uncertainty/learning.ts";
import { nextLayerOf } from "#shared/kitchen/plan/next-layer.ts";
import { paceOf } from "#shared/kitchen/plan/pace.ts";
import type { DayPlan } from "#shared/kitchen/plan/plan.ts";
import { questionSteps } from "#shared/kitchen/plan/question.ts";
import type { TrayForecast } from "#shared/kitchen/model/forecast.ts";
import {
  CONSISTENCIES,
  forecastFilmOf,
  placeForecast,
  type PlannedFilm,
  plannedFilmOf,
  type Solve,
  type Spans,
  spansAt,
  usualFilm,
} from "#shared/kitchen/forecast/films.ts";
import { dryingPlaceOf } from "#shared/kitchen/model/lookups.ts";
import { filmKey, filmLayersOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Steps } from "#shared/steps.ts";
import type { AirNews } from "./air-news.ts";
import type { Planner } from "./planner.ts";
import type { KnownStays } from "./known-stays.ts";
import type { ForecastTables } from "./tables.ts";
import { firstActs, plannedRow, trayRow } from "./planned-rows.ts";

export interface ForecastTaskDeps {
  kitchen: () => Kitchen;
  nowMs: () => number;
  learned: () => Learned;
  solve: Solve;
  tables: ForecastTables;
  news: AirNews;
  stays: KnownStays;
  planner: Planner;
}

/** The forecaster's pieces of work, in steps that each ask the drying model at most once. */
export interface ForecastTasks {
  /** A tray's films, and its finish. `isTouched`: hands moved it, so what moves is no news of the air. */
  tray: (trayId: string, isTouched: boolean) => Generator<void>;
  place: (placeId: string) => Generator<void>;
  /** The day's plan: trays' finish and next acts, and orders. */
  plan: () => Steps<DayPlan>;
}

/** A design has at most this many layers. */
const LAYERS_MOST = 12;

export function makeForecastTasks(deps: ForecastTaskDeps): ForecastTasks {
  const { solve, tables, news, stays } = deps;
  const plannedSpans = (kitchen: Kitchen, placeId: string, film: PlannedFilm, nowMs: number): Spans =>
    spansAt(kitchen, placeId, film, deps.learned(), nowMs, solve);
  /** Each tray's layer in hand or next, as worked out with its films. */
  const nexts = new Map<string, TrayForecast["next"]>();

  function* doTray(trayId: string, isTouched: boolean): Generator<void> {
    const kitchen = deps.kitchen();
    const tray = kitchen.trays[trayId];
    const isAlive = tray !== undefined && tray.status.stage !== "packed";
    const layers = isAlive ? filmLayersOf(tray) : [];
    forgetFilms(trayId, layers);
    const design = isAlive ? kitchen.designs[tray.designId] : undefined;
    if (!isAlive || design === undefined) {
      nexts.delete(trayId);
      stays.forget(trayId);
      tables.put("trays", trayId, undefined);
      return;
    }
    stays.see(tray);
    const { placeId } = dryingPlaceOf(tray);
    for (const layer of layers) {
      const key = filmKey(tray.id, layer);
      const outlook = forecastFilmOf(kitchen, tray, layer, deps.learned(), deps.nowMs(), solve);
      tables.put("films", key, outlook);
      if (outlook === undefined) continue;
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
    const next = nextLayerOf(kitchen, tray, spansOf);
    nexts.set(trayId, next);
    // Its finish and next act are the plan's: until the next one they stay as they were.
    const before = tables.latest("trays")[trayId];
    if (before !== undefined) tables.put("trays", trayId, trayRow(before.finish, next, before.plan));
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

  function* doPlan(): Steps<DayPlan> {
    const kitchen = deps.kitchen();
    const nowMs = deps.nowMs();
    const spansOf = (tray: Tray, layer: number): Spans => {
      const { placeId } = dryingPlaceOf(tray);
      const design = kitchen.designs[tray.designId]!;
      return plannedSpans(kitchen, placeId, plannedFilmOf(kitchen, design, layer), nowMs);
    };
    const [films, learned] = [{ ...tables.latest("films") }, deps.learned()];
    const input = { kitchen, films, spansOf, pace: paceOf(kitchen), nowMs, learned };
    const plan = yield* deps.planner.plan(yield* questionSteps(input));
    yield;
    const acts = firstActs(plan);
    for (const [trayId, next] of nexts) {
      const finish = plan.trays[trayId];
      const before = tables.latest("trays")[trayId];
      if (finish === undefined) continue;
      tables.put("trays", trayId, plannedRow(before, finish, next, acts.get(trayId), nowMs));
      yield;
    }
    for (const orderId of Object.keys({ ...tables.latest("orders"), ...plan.orders }))
      tables.put("orders", orderId, plan.orders[orderId]);
    return plan;
  }

  return { tray: doTray, place: doPlace, plan: doPlan };
}
