import type { Forecasts, PlannedNext } from "#shared/kitchen/model/forecast.ts";
import { type ActName, type NextAct, nextAct, readiness } from "./route.ts";
import { aliveTrays, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { stillHotUntilMs } from "./tool-heat.ts";
import type { DesignId } from "#shared/ids.ts";
import { runsOf } from "#shared/collections.ts";
import { MIN_MS } from "#shared/time.ts";

/** A tray, or neighbours of one design at the same act, that needs someone. */
export interface ReadyTile {
  key: string;
  trayIds: readonly string[];
  numbers: readonly number[];
  /** "to start": not begun, so nothing was waited on; it comes after what has waited. */
  is: "ready" | "check by touch" | "to start";
  act: ActName;
  /** The act that follows once a touch has found it so. */
  afterwards?: ActName;
  icing?: { name: string; hex: string };
  /** Their order's name. */
  order?: string;
  designId: DesignId;
  /** Layers laid, in their order. */
  laid: number;
  place: PlaceFact;
  sinceMs: number;
  hotUntilMs?: number;
  /** Its order has no time left for waiting, and it has waited a while: an alert stands for the order. */
  waitsLong: boolean;
  /** Trays of one group with neighbouring numbers may become one tile. */
  group: string;
  pickUpAtMs: number;
  /** When the day's plan has it; absent before the first plan. */
  planned?: PlannedTurn;
}

/** When a tray's turn comes by the plan: now, or at a moment; and by when it must have been begun for its order. */
export interface PlannedTurn extends Pick<PlannedNext, "startMs" | "startByMs"> {
  isNow: boolean;
}

/** What fits on the wall, and the rest in words. */
export interface FittedTiles {
  shown: readonly ReadyTile[];
  /** Trays ready, or to be touched, for which there was no tile. */
  more: readonly number[];
  /** Trays not begun for which there was no tile. */
  moreToStart: readonly number[];
}

/** The least wait that such an alert is raised for. */
const A_WHILE_MS = 10 * MIN_MS;

/** Every tray that needs someone, one tile each, in the plan's order; those to start come last. */
export function readyTiles(kitchen: Kitchen, forecasts: Forecasts, nowMs: number): ReadyTile[] {
  const pressed = new Set(
    Object.values(kitchen.alerts).flatMap(({ kind, orderId }) =>
      kind === "waiting-long" ? (orderId ?? []) : [],
    ),
  );
  return aliveTrays(kitchen)
    .flatMap((tray) => {
      const tile = tileOf(kitchen, forecasts, tray, nowMs);
      return tile === undefined
        ? []
        : [
            {
              ...tile,
              waitsLong: pressed.has(tray.orderId) && nowMs - tile.sinceMs >= A_WHILE_MS && !isToStart(tile),
            },
          ];
    })
    .toSorted(byPlan);
}

function tileOf(
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): Omit<ReadyTile, "waitsLong"> | undefined {
  const state = readiness(kitchen, forecasts, tray, nowMs);
  if (state.is !== "ready" && state.is !== "check by touch") return undefined;
  const next = nextAct(kitchen, tray);
  const icing = "icing" in next ? next.icing : undefined;
  const order = kitchen.orders[tray.orderId];
  const byTouch = state.is === "check by touch";
  const is = tray.status.stage === "queued" ? "to start" : state.is;
  const hotUntilMs = stillHotUntilMs(kitchen, tray, nowMs);
  const planned = plannedTurn(forecasts, tray, nowMs);
  return {
    key: tray.id,
    trayIds: [tray.id],
    numbers: [tray.number],
    is,
    act: byTouch ? { kind: "touch" } : nameOf(next),
    ...(byTouch ? { afterwards: nameOf(next) } : {}),
    ...(icing === undefined ? {} : { icing: { name: icing.name, hex: icing.hex } }),
    ...(order === undefined ? {} : { order: order.name }),
    designId: tray.designId,
    laid: tray.films.length,
    place: placeOf(kitchen, [tray]),
    sinceMs: state.sinceMs,
    ...(hotUntilMs === undefined ? {} : { hotUntilMs }),
    group: [is, tray.designId, tray.orderId, JSON.stringify(nameOf(next)), hotUntilMs !== undefined].join(
      "/",
    ),
    pickUpAtMs: order?.pickUpAtMs ?? Number.POSITIVE_INFINITY,
    ...(planned === undefined ? {} : { planned }),
  };
}

/** A tray's next act by the plan, as long as that is the act it waits for. */
export function plannedTurn(forecasts: Forecasts, tray: Tray, nowMs: number): PlannedTurn | undefined {
  const plan = forecasts.trays[tray.id]?.plan;
  if (plan === undefined || (plan.act === "flood" && plan.layer !== tray.films.length)) return undefined;
  const { startMs, startByMs } = plan;
  return { startMs, isNow: startMs <= nowMs, ...(startByMs === undefined ? {} : { startByMs }) };
}

const isToStart = (tile: Pick<ReadyTile, "is">): boolean => tile.is === "to start";

/** What the plan has hands for first, then what must be begun by the sooner moment; without a plan the longest wait, or the sooner pick-up. */
function byPlan(a: ReadyTile, b: ReadyTile): number {
  if (isToStart(a) !== isToStart(b)) return isToStart(a) ? 1 : -1;
  const wait = isToStart(a) ? a.pickUpAtMs - b.pickUpAtMs : a.sinceMs - b.sinceMs;
  return (
    comparePlanned(a.planned, b.planned) || (Number.isNaN(wait) ? 0 : wait) || a.numbers[0]! - b.numbers[0]!
  );
}

/** Sooner by the plan first; what has no plan comes after. */
export function comparePlanned(a: PlannedTurn | undefined, b: PlannedTurn | undefined): number {
  if (a === undefined || b === undefined) return Number(a === undefined) - Number(b === undefined);
  if (a.isNow !== b.isNow) return a.isNow ? -1 : 1;
  const by = (a.startByMs ?? Number.MAX_SAFE_INTEGER) - (b.startByMs ?? Number.MAX_SAFE_INTEGER);
  return (a.isNow ? 0 : a.startMs - b.startMs) || by;
}

/** Tiles for `capacity` places. Trays to start are always joined by neighbours; those that waited only when room is short. */
export function fitTiles(kitchen: Kitchen, tiles: readonly ReadyTile[], capacity: number): FittedTiles {
  const waited = tiles.filter((tile) => !isToStart(tile));
  const toStart = tiles.filter(isToStart);
  const fitted = [
    ...(waited.length > capacity ? joinNeighbours(kitchen, waited) : waited),
    ...joinNeighbours(kitchen, toStart),
  ];
  const numbersOf = (left: readonly ReadyTile[]): number[] => left.flatMap((tile) => tile.numbers);
  const left = fitted.slice(capacity);
  return {
    shown: fitted.slice(0, capacity),
    more: numbersOf(left.filter((tile) => !isToStart(tile))),
    moreToStart: numbersOf(left.filter(isToStart)),
  };
}

function joinNeighbours(kitchen: Kitchen, tiles: readonly ReadyTile[]): ReadyTile[] {
  const groups = new Map<string, Map<number, ReadyTile>>();
  for (const tile of tiles) {
    const group = groups.get(tile.group) ?? new Map<number, ReadyTile>();
    group.set(tile.numbers[0]!, tile);
    groups.set(tile.group, group);
  }
  return [...groups.values()]
    .flatMap((group) =>
      runsOf([...group.keys()]).map((run) =>
        joined(
          kitchen,
          run.map((number) => group.get(number)!),
        ),
      ),
    )
    .toSorted(byPlan);
}

function joined(kitchen: Kitchen, tiles: readonly ReadyTile[]): ReadyTile {
  const first = tiles[0]!;
  if (tiles.length === 1) return first;
  const trayIds = tiles.flatMap((tile) => tile.trayIds);
  const trays = trayIds.flatMap((id) => kitchen.trays[id] ?? []);
  const hot = tiles.flatMap((tile) => tile.hotUntilMs ?? []);
  const numbers = tiles.flatMap((tile) => tile.numbers);
  return {
    ...first,
    trayIds,
    numbers,
    place: placeOf(kitchen, trays),
    sinceMs: Math.min(...tiles.map((tile) => tile.sinceMs)),
    pickUpAtMs: Math.min(...tiles.map((tile) => tile.pickUpAtMs)),
    waitsLong: tiles.some((tile) => tile.waitsLong),
    ...soonestPlanned(tiles),
    ...(hot.length === 0 ? {} : { hotUntilMs: Math.max(...hot) }),
  };
}

/** The soonest of several: when one of them begins, and by when the first must be begun. */
function soonestPlanned(tiles: readonly ReadyTile[]): Pick<ReadyTile, "planned"> {
  const all = tiles.flatMap(({ planned }) => planned ?? []);
  if (all.length === 0) return {};
  const by = all.flatMap(({ startByMs }) => startByMs ?? []);
  const startMs = Math.min(...all.map((one) => one.startMs));
  const isNow = all.some((one) => one.isNow);
  return { planned: { startMs, isNow, ...(by.length === 0 ? {} : { startByMs: Math.min(...by) }) } };
}

/** An act without what it is about: trays of which it is the same are alike. */
const nameOf = (next: NextAct): ActName => {
  if (next.kind === "flood" || next.kind === "flooding")
    return { kind: next.kind, layer: next.layer, how: next.how };
  return next.kind === "pack" ? { kind: "pack", count: next.count } : { kind: next.kind };
};

/** Where trays stand: the places' names, and which slots of one. */
export interface PlaceFact {
  names: readonly string[];
  /** Numbers of one place, or a name as typed. */
  slots?: readonly number[] | string;
}

export function placeOf(kitchen: Kitchen, trays: readonly Tray[]): PlaceFact {
  const stands = trays.map(standsAt);
  const names = [...new Set(stands.flatMap(({ placeId }) => kitchen.places[placeId]?.name ?? []))];
  const slots = stands.flatMap(({ slot }) => slot ?? []);
  if (names.length > 1 || slots.length === 0) return { names };
  if (slots.every((slot) => /^\d+$/.test(slot))) return { names, slots: slots.map(Number) };
  return slots.length === 1 ? { names, slots: slots[0]! } : { names };
}
