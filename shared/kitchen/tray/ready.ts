import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { nextAct, type NextAct, readiness } from "./route.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import { aliveTrays, standsAt, type Kitchen, type Tray } from "#shared/kitchen/model/state.ts";
import { stillHotUntilMs } from "./tool-heat.ts";
import { runsOf, sayNumbers } from "#shared/words/tray-numbers.ts";
import { MIN_MS } from "#shared/time.ts";

/** What is done next with a ready tray; layers count from 0. */
export type TileAct =
  | { kind: "lay"; consistency: Consistency; layer: number }
  | { kind: "pack"; count: number };

/** A tray, or neighbours of one design at the same act, that needs someone. */
export interface ReadyTile {
  key: string;
  trayIds: readonly string[];
  numbers: readonly number[];
  label: string;
  /** "to start": not begun, so nothing was waited on; it comes after what has waited. */
  is: "ready" | "check by touch" | "to start";
  /** The next act: after the touch, where that comes first. */
  next: TileAct;
  icing?: { name: string; hex: string };
  /** What is packed goes to an order. */
  order?: string;
  place: string;
  sinceMs: number;
  hotUntilMs?: number;
  /** Its order has no time left for waiting, and it has waited a while: an alert stands for the order. */
  waitsLong: boolean;
  /** Trays of one group with neighbouring numbers may become one tile. */
  group: string;
  /** Order of those to start: by pick-up. */
  pickUpAtMs: number;
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

/** Every tray that needs someone, one tile each: longest wait first, then those to start by pick-up. */
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
    .toSorted(longestWaitFirst);
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
  const act = tileAct(kitchen, tray, next);
  if (act === undefined) return undefined;
  const icing = "icing" in next ? next.icing : undefined;
  const order = kitchen.orders[tray.orderId];
  const is = tray.standing.stage === "queued" ? "to start" : state.is;
  const hotUntilMs = stillHotUntilMs(kitchen, tray, nowMs);
  return {
    key: tray.id,
    trayIds: [tray.id],
    numbers: [tray.number],
    label: String(tray.number),
    is,
    next: act,
    ...(icing === undefined ? {} : { icing: { name: icing.name, hex: icing.hex } }),
    ...(order === undefined || next.kind !== "pack" ? {} : { order: order.name }),
    place: placeWords(kitchen, [tray]),
    sinceMs: state.sinceMs,
    ...(hotUntilMs === undefined ? {} : { hotUntilMs }),
    group: [is, tray.designId, tray.orderId, JSON.stringify(act), hotUntilMs !== undefined].join("/"),
    pickUpAtMs: order?.pickUpAtMs ?? Number.POSITIVE_INFINITY,
  };
}

function tileAct(kitchen: Kitchen, tray: Tray, next: NextAct): TileAct | undefined {
  if (next.kind === "pack") return { kind: "pack", count: next.count };
  if (next.kind !== "flood") return undefined;
  const { layer } = next;
  const consistency = kitchen.designs[tray.designId]?.layers[layer]?.consistency ?? "flood";
  return { kind: "lay", consistency, layer };
}

const isToStart = (tile: Pick<ReadyTile, "is">): boolean => tile.is === "to start";

function longestWaitFirst(a: ReadyTile, b: ReadyTile): number {
  if (isToStart(a) !== isToStart(b)) return isToStart(a) ? 1 : -1;
  const wait = isToStart(a) ? a.pickUpAtMs - b.pickUpAtMs : a.sinceMs - b.sinceMs;
  return (Number.isNaN(wait) ? 0 : wait) || a.numbers[0]! - b.numbers[0]!;
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
    .toSorted(longestWaitFirst);
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
    label: sayNumbers(numbers),
    place: placeWords(kitchen, trays),
    sinceMs: Math.min(...tiles.map((tile) => tile.sinceMs)),
    pickUpAtMs: Math.min(...tiles.map((tile) => tile.pickUpAtMs)),
    waitsLong: tiles.some((tile) => tile.waitsLong),
    ...(hot.length === 0 ? {} : { hotUntilMs: Math.max(...hot) }),
  };
}

/** Between a place and where in it: no line breaks there. */
const DOT = "\u00a0·\u00a0";

/** "Rack A · 3", "Rack A · 3–6", "Rack A, Rack C", "3 places". */
export function placeWords(kitchen: Kitchen, trays: readonly Tray[]): string {
  const stands = trays.map(standsAt);
  const names = [...new Set(stands.map(({ placeId }) => kitchen.places[placeId]?.name ?? "no place"))];
  if (names.length > 2) return `${names.length} places`;
  const slots = stands.flatMap(({ slot }) => slot ?? []);
  if (names.length > 1 || slots.length === 0) return names.join(", ");
  const inNumbers = slots.every((slot) => /^\d+$/.test(slot));
  if (inNumbers) return `${names[0]}${DOT}${sayNumbers(slots.map(Number), 2)}`;
  return slots.length === 1 ? `${names[0]}${DOT}${slots[0]}` : names[0]!;
}
