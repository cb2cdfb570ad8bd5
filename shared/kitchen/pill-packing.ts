import { boxOf, type Stretch, type StretchBox } from "./time-axis.ts";
import { sayNumbers } from "./tray-numbers.ts";

/** One tray, or several of one design at the same point, on its way along a lane. */
export interface Pill extends Stretch {
  /** The tray and what it waits on: stays while it drifts. A merged pill bears its soonest tray's. */
  key: string;
  /** The keys of all that were merged into it. */
  keys: readonly string[];
  trayIds: readonly string[];
  numbers: readonly number[];
  label: string;
  /** Trays of one group may become one pill; absent where each must be seen by itself. */
  group?: string;
  /** Heat: what its clock counts up from. */
  countFromMs?: number;
  /** A word on the pill, beside its numbers. */
  word?: string;
  /** Not on its way: stands at the axis' end. */
  is?: "never" | "unknown";
}

export interface LaneRoom {
  axisPx: number;
  rows: number;
  /** Clear space kept between two pills of a row. */
  gapPx: number;
  /** Least width a pill needs for its label. */
  leastPx(pill: Pill): number;
}

export interface PackedLane {
  pills: readonly Pill[];
  /** Row by the key of each pill, and of each that was merged into it, from 0. */
  rows: ReadonlyMap<string, number>;
  /** Pills for which there was no row, soonest first. */
  left: readonly Pill[];
}

/** How near to each other, in parts of a pill's width, trays of one design are joined: the least that makes room. */
const CLOSENESS = [0.15, 0.4, 0.8, 1.5] as const;

/**
 * Gives every pill a row in which it overlaps no other, now or while both drift towards now. A pill keeps the row it had
 * in `before` unless it would overlap there. When the lane is full, trays of one group merge; what still finds no row is left.
 */
export function packLane(
  pills: readonly Pill[],
  nowMs: number,
  room: LaneRoom,
  before: ReadonlyMap<string, number> = new Map(),
): PackedLane {
  let packed = assign(pills, nowMs, room, before);
  for (const closeness of CLOSENESS) {
    if (packed.left.length === 0) break;
    packed = assign(merge(pills, closeness, nowMs, room), nowMs, room, before);
  }
  return packed;
}

function assign(
  pills: readonly Pill[],
  nowMs: number,
  room: LaneRoom,
  before: ReadonlyMap<string, number>,
): PackedLane {
  const lanes: Pill[][] = Array.from({ length: room.rows }, () => []);
  const rows = new Map<string, number>();
  const left: Pill[] = [];
  const put = (pill: Pill, row: number | undefined): boolean => {
    const lane = lanes[row ?? -1];
    if (row === undefined || lane === undefined) return false;
    if (!lane.every((other) => staysClear(pill, other, nowMs, room))) return false;
    lane.push(pill);
    for (const key of pill.keys) rows.set(key, row);
    return true;
  };
  const inOrder = pills.toSorted(soonest);
  const unsettled = inOrder.filter(
    (pill) => !put(pill, before.get(pill.keys.find((key) => before.has(key)) ?? "")),
  );
  for (const pill of unsettled) if (!lanes.some((_, row) => put(pill, row))) left.push(pill);
  return { pills: inOrder.filter((pill) => rows.has(pill.key)), rows, left };
}

/** What will not dry comes first: it must not be left out. */
const soonest = (a: Pill, b: Pill): number =>
  Number(b.is === "never") - Number(a.is === "never") ||
  a.likelyMs - b.likelyMs ||
  a.earliestMs - b.earliestMs ||
  (a.key < b.key ? -1 : 1);

/**
 * Clear of each other now, and when the sooner arrives. Between those two the gap only grows: the axis is steepest at now,
 * so the sooner pill drifts away faster, until it stands against the axis' start and the later one comes up to it.
 */
function staysClear(a: Pill, b: Pill, nowMs: number, room: LaneRoom): boolean {
  const [sooner, later] = a.latestMs <= b.latestMs ? [a, b] : [b, a];
  const clearAt = (atMs: number): boolean => {
    const first = draw(sooner, atMs, room);
    const second = draw(later, atMs, room);
    return first.leftPx + first.widthPx + room.gapPx <= second.leftPx;
  };
  return clearAt(nowMs) && clearAt(Math.max(nowMs, sooner.latestMs));
}

/** Where a pill stands at `nowMs`. */
export const draw = (pill: Pill, nowMs: number, room: LaneRoom): StretchBox =>
  boxOf(pill, nowMs, room.axisPx, room.leastPx(pill));

function merge(pills: readonly Pill[], closeness: number, nowMs: number, room: LaneRoom): Pill[] {
  const merged: Pill[][] = [];
  const open = new Map<string, Pill[]>();
  for (const pill of pills.toSorted(soonest)) {
    const heap = pill.group === undefined ? undefined : open.get(pill.group);
    const first = heap?.[0];
    if (heap !== undefined && first !== undefined && near(first, pill, closeness, nowMs, room)) {
      heap.push(pill);
      continue;
    }
    const fresh = [pill];
    merged.push(fresh);
    if (pill.group !== undefined) open.set(pill.group, fresh);
  }
  return merged.map(joined);
}

function near(a: Pill, b: Pill, closeness: number, nowMs: number, room: LaneRoom): boolean {
  const first = draw(a, nowMs, room);
  return Math.abs(draw(b, nowMs, room).markPx - first.markPx) <= closeness * room.leastPx(a);
}

/** One pill for several: from the first earliest to the last latest, the mark at the middle one's likeliest. */
function joined(pills: readonly Pill[]): Pill {
  const first = pills[0]!;
  if (pills.length === 1) return first;
  const numbers = pills.flatMap((pill) => pill.numbers).toSorted((a, b) => a - b);
  return {
    ...first,
    keys: pills.flatMap((pill) => pill.keys),
    trayIds: pills.flatMap((pill) => pill.trayIds),
    numbers,
    label: sayNumbers(numbers, 1),
    earliestMs: Math.min(...pills.map((pill) => pill.earliestMs)),
    likelyMs: pills[Math.floor((pills.length - 1) / 2)]!.likelyMs,
    latestMs: Math.max(...pills.map((pill) => pill.latestMs)),
  };
}
