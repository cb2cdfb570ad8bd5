import { beliefFor, learn, type Learned } from "#shared/drying/learning.ts";
import { isTrayAct, type KitchenEvent } from "#shared/kitchen/event.ts";
import { evidenceOf, toEvidence } from "#shared/kitchen/evidence.ts";
import { readingsAt } from "#shared/kitchen/film-air.ts";
import { orderOutlook, trayOutlook, turnsOf } from "#shared/kitchen/finish.ts";
import type { FilmOutlook, Forecasts } from "#shared/kitchen/forecast.ts";
import {
  CONSISTENCIES,
  dryingPlaceOf,
  filmLayersOf,
  forecastFilmOf,
  placeOutlook,
  plannedFilmOf,
  type Spans,
  spansAt,
  usualFilm,
} from "#shared/kitchen/forecasting.ts";
import { aliveTrays, filmKey, type Kitchen, type Tray } from "#shared/kitchen/state.ts";
import type { ForecastPatch } from "#shared/protocol.ts";
import { makeAirNews } from "./air-news.ts";
import { areBeliefsAlike, makeAnswers } from "./answers.ts";
import { makeForecastTables } from "./forecast-tables.ts";

export interface ForecasterDeps {
  kitchen: () => Kitchen;
  /** The kitchen's clock. */
  nowMs: () => number;
  /** Runs an act in a later turn of the event loop (setImmediate). */
  defer: (act: () => void) => void;
  /** A real clock that only goes forward, to cut the work by. */
  monotonicMs: () => number;
  publish: (patch: ForecastPatch) => void;
}

/** Keeps the forecasts beside the state, in slices that leave the event loop free. */
export interface Forecaster {
  current: () => Forecasts;
  /** What the kitchen has taught so far. */
  learned: () => Learned;
  /** After each commit: what these events touch is forecast again, touched trays first. */
  touch: (events: readonly KitchenEvent[]) => void;
  /** Everything again, since the air ages: once a kitchen-minute. What has not changed is not worked out twice. */
  refresh: () => void;
  /** Resolves when nothing is left to do. */
  idle: () => Promise<void>;
  stop: () => void;
}

/** A slice ends with the step that passes this; a step asks the model at most once, which takes up to 5 ms. */
const SLICE_MS = 3;
/** Patches are gathered for this long, unless a touched tray waits for its own. */
const GATHER_MS = 200;
/** The newest findings that are learned from: older ones say little of today's icing. */
const LEARNED_FROM = 600;
const ORDER_EVENTS: ReadonlySet<EventType> = new Set(["order-put", "order-cancelled", "trays-put-away"]);
/** What changes films or air anywhere. */
const WIDE_EVENTS: ReadonlySet<EventType> = new Set([
  "settings-changed",
  "place-put",
  "place-removed",
  "tool-put",
  "icing-put",
  "icing-removed",
  "design-put",
  "design-removed",
]);
/** A design has at most this many layers. */
const LAYERS_MOST = 12;

type EventType = KitchenEvent["type"];

/** Starts forecasting everything there is. */
export function createForecaster(deps: ForecasterDeps): Forecaster {
  const answers = makeAnswers();
  const tables = makeForecastTables();
  const news = makeAirNews();
  /** Trays under someone's hands; all others; places. Each waits in order of arrival. */
  const touched = new Set<string>();
  const routine = new Set<string>();
  const places = new Set<string>();
  const due = { learning: true, orders: true, news: true, reading: false };
  const waiting: (() => void)[] = [];
  let learned = learn([]);
  let turns: { kitchen: Kitchen; of: ReadonlyMap<string, number> } | undefined;
  let sentMs = deps.monotonicMs();
  let work: Iterator<void> | undefined;
  let isStopped = false;

  function refresh(): void {
    answers.sweep();
    const kitchen = deps.kitchen();
    for (const trayId of [
      ...Object.keys(tables.latest("trays")),
      ...aliveTrays(kitchen).map(({ id }) => id),
    ]) {
      routine.add(trayId);
    }
    for (const placeId of [...Object.keys(tables.latest("places")), ...Object.keys(kitchen.places)])
      places.add(placeId);
    due.orders = true;
    due.news = true;
    start();
  }

  function touch(events: readonly KitchenEvent[]): void {
    for (const event of events) touchOne(event);
  }

  function touchOne(event: KitchenEvent): void {
    if (isTrayAct(event) || event.type === "act-taken-back" || event.type === "tray-removed") {
      touchTray(event.trayId, event.type !== "tray-assigned" && event.type !== "flooding-started");
    } else if (event.type === "tray-added") touchTray(event.plan.id, false);
    else if (event.type === "reading-taken") touchAir(event.reading.placeId);
    else if (ORDER_EVENTS.has(event.type)) {
      due.orders = true;
      start();
    } else if (WIDE_EVENTS.has(event.type)) refresh();
  }

  function touchTray(trayId: string, mayTeach: boolean): void {
    touched.add(trayId);
    due.orders = true;
    due.learning ||= mayTeach;
    start();
  }

  /** Places that go by these readings, and the trays there. */
  function touchAir(placeId: string): void {
    const kitchen = deps.kitchen();
    const read = kitchen.readings[placeId];
    const here = new Set(Object.keys(kitchen.places).filter((id) => readingsAt(kitchen, id) === read));
    for (const id of here) places.add(id);
    for (const tray of aliveTrays(kitchen)) if (here.has(dryingPlaceOf(tray).placeId)) routine.add(tray.id);
    due.orders = true;
    due.news = true;
    due.reading = true;
    start();
  }

  function start(): void {
    if (work !== undefined || isStopped) return;
    work = steps();
    deps.defer(slice);
  }

  function slice(): void {
    if (isStopped || work === undefined) return;
    const startMs = deps.monotonicMs();
    let isDone: boolean | undefined;
    do isDone = work.next().done;
    while (isDone !== true && deps.monotonicMs() - startMs < SLICE_MS);
    if (isDone !== true) return deps.defer(slice);
    work = undefined;
    send();
    for (const resolve of waiting.splice(0)) resolve();
  }

  function send(): void {
    sentMs = deps.monotonicMs();
    const patch = tables.take(deps.nowMs());
    if (patch !== undefined) deps.publish(patch);
  }

  /** All there is to do, a step at a time. What is touched meanwhile comes next. */
  function* steps(): Generator<void> {
    for (;;) {
      const next = first(touched) ?? (due.learning ? undefined : first(routine));
      if (next !== undefined) {
        const isTouched = touched.delete(next);
        routine.delete(next);
        yield* doTray(next, isTouched);
        if (isTouched && touched.size === 0) send();
      } else if (due.learning) {
        due.learning = false;
        learnAgain();
      } else if (places.size > 0) {
        yield* doPlace(first(places) ?? "");
      } else if (due.orders) {
        due.orders = false;
        yield* doOrders();
      } else if (due.news) {
        tables.putChange(news.after(deps.kitchen(), deps.nowMs(), due.reading));
        due.news = false;
        due.reading = false;
      } else return;
      if (deps.monotonicMs() - sentMs >= GATHER_MS) send();
      yield;
    }
  }

  /** Learns from the newest findings; forecasts move only if it changes them. */
  function learnAgain(): void {
    const kitchen = deps.kitchen();
    const evidence = evidenceOf(kitchen).toSorted((a, b) => a.atMs - b.atMs);
    const next = learn(evidence.slice(-LEARNED_FROM).map(toEvidence));
    if (teachesTheSame(kitchen, learned, next)) return;
    learned = next;
    news.forgetAll();
    refresh();
  }

  function* doTray(trayId: string, isTouched: boolean): Generator<void> {
    const kitchen = deps.kitchen();
    const tray = kitchen.trays[trayId];
    const isAlive = tray !== undefined && tray.standing.stage !== "packed";
    const layers = isAlive ? filmLayersOf(tray) : [];
    forgetFilms(trayId, layers);
    const design = isAlive ? kitchen.designs[tray.designId] : undefined;
    if (!isAlive || design === undefined) {
      tables.put("trays", trayId, undefined);
      return;
    }
    const { placeId } = dryingPlaceOf(tray);
    const films: Record<string, FilmOutlook> = {};
    for (const layer of layers) {
      const key = filmKey(tray.id, layer);
      const outlook = forecastFilmOf(kitchen, tray, layer, learned, deps.nowMs(), answers.solve);
      tables.put("films", key, outlook);
      if (outlook === undefined) continue;
      films[key] = outlook;
      news.see(key, { placeId, outlook }, deps.nowMs(), isTouched);
      yield;
    }
    const nowMs = deps.nowMs();
    const spansOf = (layer: number): Spans =>
      spansAt(kitchen, placeId, plannedFilmOf(kitchen, design, layer), learned, nowMs, answers.solve);
    for (let layer = layers.length; layer < design.layers.length; layer += 1) {
      spansOf(layer);
      yield;
    }
    const turnMs = tray.standing.stage === "queued" ? turnOf(kitchen, tray) : 0;
    tables.put("trays", trayId, trayOutlook({ kitchen, tray, films, spansOf, nowMs, turnMs }));
  }

  function turnOf(kitchen: Kitchen, tray: Tray): number {
    if (turns?.kitchen !== kitchen) turns = { kitchen, of: turnsOf(kitchen) };
    return turns.of.get(tray.id) ?? 0;
  }

  /** Films a tray no longer has: taken back, packed or put away. */
  function forgetFilms(trayId: string, layers: readonly number[]): void {
    for (let layer = 0; layer < LAYERS_MOST; layer += 1) {
      if (layers.includes(layer)) continue;
      tables.put("films", `${trayId}/${layer}`, undefined);
      news.forget(`${trayId}/${layer}`);
    }
  }

  function* doPlace(placeId: string): Generator<void> {
    places.delete(placeId);
    const kitchen = deps.kitchen();
    const place = kitchen.places[placeId];
    if (place === undefined) {
      tables.put("places", placeId, undefined);
      return;
    }
    const nowMs = deps.nowMs();
    for (const consistency of CONSISTENCIES) {
      spansAt(kitchen, placeId, usualFilm(kitchen, consistency), learned, nowMs, answers.solve);
      yield;
    }
    tables.put("places", placeId, placeOutlook(kitchen, place, learned, nowMs, answers.solve));
  }

  function* doOrders(): Generator<void> {
    const kitchen = deps.kitchen();
    for (const orderId of new Set([
      ...Object.keys(tables.latest("orders")),
      ...Object.keys(kitchen.orders),
    ])) {
      const order = kitchen.orders[orderId];
      const outlook =
        order === undefined ? undefined : orderOutlook(kitchen, order, tables.latest("trays"), deps.nowMs());
      tables.put("orders", orderId, outlook);
      yield;
    }
  }

  refresh();
  return {
    current: tables.current,
    learned: () => learned,
    touch,
    refresh,
    idle: () =>
      work === undefined || isStopped
        ? Promise.resolve()
        : new Promise((resolve) => void waiting.push(resolve)),
    stop: () => {
      isStopped = true;
      for (const resolve of waiting.splice(0)) resolve();
    },
  };
}

const first = (names: ReadonlySet<string>): string | undefined => names.values().next().value;

/** Whether both teach the same of every icing and place in use, to about a hundredth. */
function teachesTheSame(kitchen: Kitchen, before: Learned, after: Learned): boolean {
  return ["", ...Object.keys(kitchen.icings)].every((icing) =>
    Object.keys(kitchen.places).every((place) =>
      areBeliefsAlike(beliefFor(before, icing, place), beliefFor(after, icing, place)),
    ),
  );
}
