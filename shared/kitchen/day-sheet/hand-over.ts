import { isReached } from "#shared/drying/uncertainty/band.ts";
import { byName, compareNames } from "#shared/collections.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { aliveTrays, filmKey, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, OrderState, ShiftNote, ToolState, Tray } from "#shared/kitchen/model/state.ts";
import { plannedTurn } from "#shared/kitchen/tray/ready.ts";
import { foundAt, nextAct, type NextAct, readiness, type Readiness } from "#shared/kitchen/tray/route.ts";

/** How a tray stands when a shift ends: icing being laid or heated, wet, or with a skin and drying through. */
export type Surface = "in hand" | "under heat" | "wet" | "skinned";

/** Trays in one place by how they stand. */
export interface PlaceTrays {
  place: string;
  by: readonly { surface: Surface; trays: readonly number[] }[];
}

/** A tray's next act, and when it comes. What is in hand, or under heat, is told with its place. */
export interface DueAct {
  tray: number;
  act: Exclude<NextAct, { kind: "heat" } | { kind: "packed" }>;
  /** By the day's plan, else when it is likely ready, or since when it is; absent where nothing is known. */
  atMs?: number;
}

/** What one shift tells the next. */
export interface HandOver {
  places: readonly PlaceTrays[];
  due: readonly DueAct[];
  /** Acts that are not listed. */
  moreDue: number;
  orders: readonly OrderState[];
  toolsOn: readonly ToolState[];
  outOfService: readonly ToolState[];
  note?: ShiftNote;
}

const DUE_SHOWN = 12;
const ORDERS_SHOWN = 6;
const SURFACES: readonly Surface[] = ["in hand", "under heat", "wet", "skinned"];

export function handOver(kitchen: Kitchen, forecasts: Forecasts, nowMs: number): HandOver {
  const alive = aliveTrays(kitchen);
  const due = alive.flatMap((tray) => dueOf(kitchen, forecasts, tray, nowMs) ?? []).toSorted(byMoment);
  const tools = Object.values(kitchen.tools).toSorted(compareNames);
  const openOrders = new Set<string>(alive.map(({ orderId }) => orderId));
  return {
    places: placesOf(kitchen, forecasts, alive, nowMs),
    due: due.slice(0, DUE_SHOWN),
    moreDue: Math.max(0, due.length - DUE_SHOWN),
    orders: Object.values(kitchen.orders)
      .filter(({ id }) => openOrders.has(id))
      .toSorted((a, b) => a.pickUpAtMs - b.pickUpAtMs)
      .slice(0, ORDERS_SHOWN),
    toolsOn: tools.filter(({ use }) => use.status === "on"),
    outOfService: tools.filter(({ outOfService }) => outOfService !== undefined),
    ...(kitchen.note !== undefined && { note: kitchen.note }),
  };
}

function placesOf(
  kitchen: Kitchen,
  forecasts: Forecasts,
  alive: readonly Tray[],
  nowMs: number,
): PlaceTrays[] {
  const iced = alive.flatMap((tray) => {
    const surface = surfaceOf(forecasts, tray, nowMs);
    return surface === undefined ? [] : [{ tray, surface, placeId: standsAt(tray).placeId }];
  });
  return [...byName(iced, ({ placeId }) => placeId)]
    .map(([placeId, own]) => ({
      name: kitchen.places[placeId]?.name ?? "",
      by: SURFACES.flatMap((surface) => {
        const trays = own
          .filter((one) => one.surface === surface)
          .map(({ tray }) => tray.number)
          .toSorted((a, b) => a - b);
        return trays.length === 0 ? [] : [{ surface, trays }];
      }),
    }))
    .toSorted(compareNames)
    .map(({ name, by }) => ({ place: name, by }));
}

/** Undefined where it has no icing yet. A film counts as wet until a touch, or its latest time, says otherwise. */
function surfaceOf(forecasts: Forecasts, tray: Tray, nowMs: number): Surface | undefined {
  const { status, films } = tray;
  if (status.stage === "flooding") return "in hand";
  if (status.stage === "heat-set") return "under heat";
  if (films.length === 0) return undefined;
  const isWet = films.some((film) => {
    if (foundAt(film, "skin") !== undefined) return false;
    const skin = forecasts.films[filmKey(tray.id, film.layer)]?.skin;
    return !isReached(skin) || skin.latestMs > nowMs;
  });
  return isWet ? "wet" : "skinned";
}

function dueOf(kitchen: Kitchen, forecasts: Forecasts, tray: Tray, nowMs: number): DueAct | undefined {
  const act = nextAct(kitchen, tray);
  if (act.kind === "flooding" || act.kind === "heat" || act.kind === "packed") return undefined;
  const state = readiness(kitchen, forecasts, tray, nowMs);
  const atMs = plannedTurn(forecasts, tray, nowMs)?.startMs ?? readyAtMs(state);
  return { tray: tray.number, act, ...(atMs !== undefined && { atMs }) };
}

const readyAtMs = (state: Readiness): number | undefined =>
  state.is === "coming" ? state.band.likelyMs : "sinceMs" in state ? state.sinceMs : undefined;

const byMoment = (a: DueAct, b: DueAct): number =>
  (a.atMs ?? Number.MAX_SAFE_INTEGER) - (b.atMs ?? Number.MAX_SAFE_INTEGER) || a.tray - b.tray;
