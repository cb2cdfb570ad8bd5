import type { Band } from "#shared/drying/uncertainty/band.ts";
import { HOT_AIR_MIN } from "#shared/heat/tool.ts";
import { isPoured } from "#shared/icing/quantities.ts";
import { cookiesBeforeSetting, setWithinMin, sinkRisk } from "#shared/icing/sinking.ts";
import type { Spans } from "#shared/kitchen/forecast/films.ts";
import type {
  FilmForecast,
  OrderForecast,
  SinkAdvice,
  TrayForecast,
} from "#shared/kitchen/model/forecast.ts";
import { doneInOneGoMs, openFromMs, workedMs } from "#shared/kitchen/model/opening-hours.ts";
import { handsHere } from "#shared/kitchen/model/people.ts";
import { needsOf } from "#shared/kitchen/tray/route.ts";
import {
  type Film,
  filmKey,
  inHandOf,
  type Kitchen,
  type OrderState,
  type Tray,
  traysOf,
} from "#shared/kitchen/model/state.ts";
import { isOrderPacked } from "#shared/kitchen/model/order-cookies.ts";
import type { Design, Layer, Order, ToolKind } from "#shared/kitchen/model/vocabulary.ts";
import { MIN_MS } from "#shared/time.ts";

const POINTS = ["earliestMs", "likelyMs", "latestMs"] as const;
type Point = (typeof POINTS)[number];

/** What a tray's outlook is worked out from. */
export interface TrayPrognosis {
  kitchen: Kitchen;
  tray: Tray;
  films: Readonly<Record<string, FilmForecast>>;
  /** Spans of a layer not yet laid, where the tray will dry. */
  spansOf: (layer: number) => Spans | undefined;
  nowMs: number;
  /** When hands come to it; now if left out. */
  turnAtMs?: number;
}

/**
 * When a tray can be packed: every layer not yet laid waits for what it must, takes the kitchen's flooding time, and dries.
 * The chain is followed three times, with every film at its earliest, likeliest and latest, as if one cause moved them all.
 * That is so when the doubt lies in the kitchen's factor or its air; else the band is a little wide. Hands are taken to
 * be there when a tray is ready and the kitchen open, and to begin no layer that would not be laid by closing. Undefined
 * while a film has no forecast.
 */
export function trayForecast(prognosis: TrayPrognosis): TrayForecast | undefined {
  const { kitchen, tray } = prognosis;
  const design = kitchen.designs[tray.designId];
  if (design === undefined) return undefined;
  const finish = finishOf(prognosis, design);
  if (finish === undefined) return undefined;
  const layer = inHandOf(tray)?.layer ?? tray.films.length;
  const own = design.layers[layer];
  const spans = own && prognosis.spansOf(layer);
  if (own === undefined || spans === undefined) return { finish };
  const sink = sinkAdvice(kitchen, tray, own, spans.skin);
  return { finish, next: { layer, ...spans, ...(sink === undefined ? {} : { sink }) } };
}

function finishOf(prognosis: TrayPrognosis, design: Design): Band | undefined {
  const { tray, films } = prognosis;
  const hand = inHandOf(tray);
  const laid: Pick<Film, "layer" | "clockStartMs">[] = [
    ...tray.films,
    ...(hand === undefined ? [] : [{ layer: hand.layer, clockStartMs: hand.startedAtMs }]),
  ];
  const outlooks = laid.map(({ layer }) => films[filmKey(tray.id, layer)]);
  const spans = design.layers.map((_, layer) => (layer < laid.length ? undefined : prognosis.spansOf(layer)));
  for (const one of [...outlooks, ...spans]) {
    if (one !== undefined && "never" in one.dryThrough) return one.dryThrough;
    if (one !== undefined && "never" in one.skin) return one.skin;
  }
  const [earliestMs, likelyMs, latestMs] = POINTS.map((point) =>
    follow(prognosis, design, laid, outlooks, spans, point),
  );
  if (earliestMs === undefined || likelyMs === undefined || latestMs === undefined) return undefined;
  return { earliestMs, likelyMs, latestMs };
}

/** The chain with every film at one percentile. */
function follow(
  { kitchen, nowMs, turnAtMs = nowMs }: TrayPrognosis,
  design: Design,
  films: readonly Pick<Film, "layer" | "clockStartMs">[],
  outlooks: readonly (FilmForecast | undefined)[],
  spans: readonly (Spans | undefined)[],
  at: Point,
): number | undefined {
  const floodingMs = kitchen.settings.floodingMin * MIN_MS;
  const laidMs = films.map(({ clockStartMs }) => clockStartMs);
  const skinMs: number[] = [];
  const dryMs: number[] = [];
  for (const outlook of outlooks) {
    if (outlook === undefined || "never" in outlook.skin || "never" in outlook.dryThrough) return undefined;
    skinMs.push(outlook.skin[at]);
    dryMs.push(outlook.dryThrough[at]);
  }
  for (let layer = films.length; layer < design.layers.length; layer += 1) {
    const span = spans[layer];
    if (span === undefined || "never" in span.skin || "never" in span.dryThrough) return undefined;
    const waits = needsOf(design, layer).map(({ layer: earlier, need }) => {
      if (need === "wet") return laidMs[earlier] ?? 0;
      return (need === "skin" ? skinMs[earlier] : dryMs[earlier]) ?? 0;
    });
    const fromMs = Math.max(turnAtMs, laidMs.at(-1) ?? 0, ...waits);
    const doneMs = doneInOneGoMs(kitchen.settings, fromMs, floodingMs);
    laidMs.push(doneMs);
    skinMs.push(doneMs + span.skin[at]);
    dryMs.push(doneMs + span.dryThrough[at]);
  }
  return Math.max(...dryMs);
}

function sinkAdvice(kitchen: Kitchen, tray: Tray, layer: Layer, skin: Band): SinkAdvice | undefined {
  const risk = sinkRisk(layer.narrowestMm);
  if (risk === "none" || !isPoured(layer.consistency) || "never" in skin) return undefined;
  const withinMin = setWithinMin(skin.likelyMs / MIN_MS, kitchen.settings.sinkShare);
  const eachMin = kitchen.settings.floodingMin / tray.count;
  const before = (kind: ToolKind): number =>
    Math.min(tray.count, cookiesBeforeSetting(withinMin, eachMin, HOT_AIR_MIN, kind));
  const fit = Object.values(kitchen.tools).filter((tool) => tool.outOfService === undefined);
  const hasOven = fit.some(({ kind }) => kind === "oven");
  const isOvenOnly = hasOven && !fit.some(({ kind }) => kind === "hot-air");
  return {
    risk,
    setWithinMin: Math.round(withinMin * 10) / 10,
    floodBeforeSetting: before(isOvenOnly ? "oven" : "hot-air"),
    ...(hasOven && !isOvenOnly ? { floodBeforeOven: before("oven") } : {}),
  };
}

/**
 * When hands come to each queued tray: in the order of pick-ups, then of numbers, one flooding time after another while the
 * kitchen is open, by as many hands as ice at once.
 */
export function turnsOf(kitchen: Kitchen, nowMs: number): ReadonlyMap<string, number> {
  const { orders, settings } = kitchen;
  const hands = handsOf(kitchen);
  const queue = Object.values(kitchen.trays)
    .filter(({ status }) => status.stage === "queued")
    .map((tray) => ({ tray, dueMs: orders[tray.orderId]?.pickUpAtMs ?? Number.MAX_SAFE_INTEGER }))
    .toSorted((a, b) => a.dueMs - b.dueMs || a.tray.number - b.tray.number);
  const roundMs = settings.floodingMin * MIN_MS;
  let turnAtMs = openFromMs(settings, nowMs);
  return new Map(
    queue.map(({ tray }, k) => {
      if (k > 0 && k % hands === 0) turnAtMs = doneInOneGoMs(settings, turnAtMs, roundMs);
      return [tray.id, turnAtMs];
    }),
  );
}

/** How many ice at once: what a lead said, else everyone who joined. */
const handsOf = (kitchen: Kitchen): number =>
  kitchen.settings.hands ?? Math.max(1, handsHere(kitchen).length);

/**
 * When an order's trays are all dry through; trays not planned yet are not counted, nor those beyond what was ordered once
 * that is packed. Spare minutes are what is left before pick-up once it is packed too; negative is short. Undefined for an
 * order with no tray, or while one has no outlook.
 */
export function orderForecast(
  kitchen: Kitchen,
  order: OrderState,
  trays: Readonly<Record<string, TrayForecast>>,
  nowMs: number,
): OrderForecast | undefined {
  const here = traysOf(kitchen, order.id);
  const packed = here.filter(({ status }) => status.stage === "packed");
  const own = packed.length > 0 && isOrderPacked(order, packed) ? packed : here;
  const finish = latestOf(own.map((tray) => finishedBy(tray, trays)));
  if (finish === undefined) return undefined;
  if ("never" in finish) return { finish };
  const isPacked = own.length === packed.length;
  const spareMin = (finishMs: number): number =>
    isPacked
      ? Math.round((order.pickUpAtMs - finishMs) / MIN_MS)
      : spareAfterPacking(kitchen, order, finishMs, nowMs);
  return { finish, spareMin: spareMin(finish.likelyMs), spareWorstMin: spareMin(finish.latestMs) };
}

/**
 * Minutes left before pick-up once what is dry through at this moment is packed too; negative is short. Packing that is not
 * done by closing goes on at the next opening: some trays are packed, the others not.
 */
export function spareAfterPacking(
  { settings }: Kitchen,
  { pickUpAtMs }: Order,
  finishMs: number,
  nowMs: number,
): number {
  const packedMs = workedMs(settings, Math.max(nowMs, finishMs), settings.packingMin * MIN_MS);
  return Math.round((pickUpAtMs - packedMs) / MIN_MS);
}

function finishedBy({ id, status }: Tray, trays: Readonly<Record<string, TrayForecast>>): Band | undefined {
  if (status.stage !== "packed") return trays[id]?.finish;
  return { earliestMs: status.atMs, likelyMs: status.atMs, latestMs: status.atMs };
}

/** The band of the last of several; never if one is never, undefined of none or if one is unknown. */
export function latestOf(bands: readonly (Band | undefined)[]): Band | undefined {
  let last: Band | undefined;
  for (const band of bands) {
    if (band === undefined) return undefined;
    if ("never" in band) return band;
    if (last === undefined || "never" in last) last = band;
    else
      last = {
        earliestMs: Math.max(last.earliestMs, band.earliestMs),
        likelyMs: Math.max(last.likelyMs, band.likelyMs),
        latestMs: Math.max(last.latestMs, band.latestMs),
      };
  }
  return last;
}
