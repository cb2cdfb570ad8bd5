import { boxOf, type BoxCover, type Stretch, type StretchBox } from "./time-axis.ts";
import type { DesignId } from "#shared/ids.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";

/** What a pill says beside its numbers. */
export type PillNote = "hot" | "later" | "sooner" | "stop" | "unknown" | "never";

/** One tray, or several of one design at the same point, on its way along a lane. */
export interface Pill extends Stretch {
  /** The tray and what it waits on: stays while it drifts. A merged pill bears its soonest tray's. */
  key: string;
  /** The keys of all that were merged into it. */
  keys: readonly string[];
  trayIds: readonly string[];
  numbers: readonly number[];
  /** Layers laid of this design: the cookie to be drawn. */
  designId: DesignId;
  laid: number;
  label: string;
  /** Trays of one group may become one pill; absent where each must be seen by itself. */
  group?: string;
  /** Heat: what its clock counts up from. */
  countFromMs?: number;
  /** Heat past its stop-by. */
  isOverdue?: boolean;
  /** Said on the pill, beside its numbers. */
  note?: PillNote | undefined;
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
  /** What the boxes of these pills cover: in a lane that merging alone does not clear, only their mark. */
  cover: BoxCover;
}

/**
 * What is tried in turn until all find a row: each tray by itself; trays of one design that are ever less near to each other,
 * in parts of a pill's width, as one; the same again with boxes that cover their mark alone.
 */
const WAYS: readonly { closeness: number; cover: BoxCover }[] = [
  ...[0, 0.15, 0.4, 0.8].map((closeness) => ({ closeness, cover: "stretch" as const })),
  ...[0.15, 0.4, 0.8, 1.5].map((closeness) => ({ closeness, cover: "mark" as const })),
];

/**
 * Gives every pill a row in which it overlaps no other, now or while both drift towards now. A pill keeps the row it had
 * in `before` unless it would overlap there, or a tray would be left out. When the lane is full, trays of one group merge; what
 * still finds no row is left.
 */
export function packLane(
  pills: readonly Pill[],
  nowMs: number,
  room: LaneRoom,
  before: ReadonlyMap<string, number> = new Map(),
): PackedLane {
  let packed: PackedLane = { pills: [], rows: new Map(), left: pills, cover: "stretch" };
  for (const { closeness, cover } of WAYS) {
    const merged = closeness === 0 ? pills : merge(pills, closeness, nowMs, room);
    packed = assign(merged, nowMs, { ...room, cover }, before);
    if (packed.left.length === 0) return packed;
  }
  // Rather than leave a tray out, pills change their rows.
  const afresh = before.size > 0 ? packLane(pills, nowMs, room) : packed;
  return traysLeft(afresh) < traysLeft(packed) ? afresh : packed;
}

/** How many trays found no row. */
export const traysLeft = ({ left }: PackedLane): number =>
  left.reduce((sum, { trayIds }) => sum + trayIds.length, 0);

/** Rows with which every tray would stand by itself, at most those of `room`. */
export function rowsWanted(pills: readonly Pill[], nowMs: number, room: LaneRoom): number {
  const { rows, left } = assign(pills, nowMs, { ...room, cover: "stretch" }, new Map());
  return left.length > 0 ? room.rows : Math.max(0, ...[...rows.values()].map((row) => row + 1));
}

type CoveredRoom = LaneRoom & { cover: BoxCover };

/** A pill with what is asked of it again and again. */
interface Measured {
  pill: Pill;
  leastPx: number;
  now: StretchBox;
}

function assign(
  pills: readonly Pill[],
  nowMs: number,
  room: CoveredRoom,
  before: ReadonlyMap<string, number>,
): PackedLane {
  const lanes: Measured[][] = Array.from({ length: room.rows }, () => []);
  const rows = new Map<string, number>();
  const put = (one: Measured, row: number | undefined): boolean => {
    const lane = lanes[row ?? -1];
    if (row === undefined || lane === undefined) return false;
    if (!lane.every((other) => staysClear(one, other, nowMs, room))) return false;
    lane.push(one);
    for (const key of one.pill.keys) rows.set(key, row);
    return true;
  };
  const inOrder = pills.toSorted(soonest).map((pill): Measured => {
    const leastPx = room.leastPx(pill);
    return { pill, leastPx, now: boxOf(pill, nowMs, room.axisPx, leastPx, room.cover) };
  });
  const rowBefore = ({ pill }: Measured): number | undefined =>
    before.get(pill.keys.find((key) => before.has(key)) ?? "");
  const unsettled = inOrder.filter((one) => !put(one, rowBefore(one)));
  const left = unsettled.filter((one) => !lanes.some((_, row) => put(one, row))).map(({ pill }) => pill);
  const shown = inOrder.map(({ pill }) => pill).filter((pill) => rows.has(pill.key));
  return { pills: shown, rows, left, cover: room.cover };
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
function staysClear(a: Measured, b: Measured, nowMs: number, { cover, axisPx, gapPx }: CoveredRoom): boolean {
  const end = cover === "mark" ? "likelyMs" : "latestMs";
  const [sooner, later] = a.pill[end] <= b.pill[end] ? [a, b] : [b, a];
  const isClear = (first: StretchBox, second: StretchBox): boolean =>
    first.leftPx + first.widthPx + gapPx <= second.leftPx;
  if (!isClear(sooner.now, later.now)) return false;
  const atMs = Math.max(nowMs, sooner.pill[end]);
  const then = ({ pill, leastPx }: Measured): StretchBox => boxOf(pill, atMs, axisPx, leastPx, cover);
  return isClear(then(sooner), then(later));
}

/** Makes one pill of those of a group that stand within `closeness` pill widths of the first of them. */
function merge(pills: readonly Pill[], closeness: number, nowMs: number, room: LaneRoom): Pill[] {
  const merged: Pill[][] = [];
  const open = new Map<string, Pill[]>();
  const markPx = (pill: Pill): number => boxOf(pill, nowMs, room.axisPx, 0, "mark").markPx;
  for (const pill of pills.toSorted(soonest)) {
    const heap = open.get(pill.group ?? "");
    if (heap && Math.abs(markPx(pill) - markPx(heap[0]!)) <= closeness * room.leastPx(heap[0]!)) {
      heap.push(pill);
      continue;
    }
    const fresh = [pill];
    merged.push(fresh);
    if (pill.group !== undefined) open.set(pill.group, fresh);
  }
  return merged.map((heap) => joined(heap, room));
}

/**
 * One pill for several: from the first earliest to the last latest, the mark at the middle one's likeliest. Numbers wider than
 * the whole axis are counted: "205 +18".
 */
function joined(pills: readonly Pill[], room: LaneRoom): Pill {
  const first = pills[0]!;
  if (pills.length === 1) return first;
  const numbers = pills.flatMap((pill) => pill.numbers).toSorted((a, b) => a - b);
  // Several clocks are none: only heat past its stop-by is merged, and what is to be done with it is one thing.
  const { countFromMs, ...shared } = first;
  const pill: Pill = {
    ...shared,
    ...(countFromMs !== undefined && { note: "stop" }),
    keys: pills.flatMap(({ keys }) => keys),
    trayIds: pills.flatMap(({ trayIds }) => trayIds),
    numbers,
    label: sayNumbers(numbers, 1),
    earliestMs: Math.min(...pills.map(({ earliestMs }) => earliestMs)),
    likelyMs: pills[Math.floor((pills.length - 1) / 2)]!.likelyMs,
    latestMs: Math.max(...pills.map(({ latestMs }) => latestMs)),
  };
  return room.leastPx(pill) <= room.axisPx
    ? pill
    : { ...pill, label: `${numbers[0]} +${numbers.length - 1}` };
}
