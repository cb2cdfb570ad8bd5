import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { HOUR_MS } from "#shared/time.ts";
import { type Stretch, together } from "./rows.ts";

/** The part of the day that is in sight, and how wide it is drawn. */
export interface Axis {
  fromMs: number;
  toMs: number;
  widthPx: number;
}

/** A stretch drawn on the axis: px from its start, and which of its row's lanes it lies in, from 0. */
export interface Laid<Item> {
  item: Item;
  label: string;
  leftPx: number;
  widthPx: number;
  /** Px at which the stretch itself ends, where its label needed more. */
  ownPx: number;
  lane: number;
  /** Px that are free after it in its lane. */
  roomPx: number;
}

/** An hour is never drawn narrower, px: an act of half an hour then has room for what it is. */
const HOUR_PX = 120;
const HOURS_MOST = 14;
/** A letter of a label, px, at its widest; and what is beside it. */
const LETTER_PX = 9.5;
const BESIDE_PX = 18;
/** Room between two that share a lane. */
const GAP_PX = 3;

/** Whole hours that fit so much width. */
export const hoursIn = (widthPx: number): number =>
  Math.min(HOURS_MOST, Math.max(3, Math.floor(widthPx / HOUR_PX)));

/** Px from the axis' start, of a moment within it. */
export const pxAt = ({ fromMs, toMs, widthPx }: Axis, atMs: number): number =>
  (widthPx * (Math.min(Math.max(atMs, fromMs), toMs) - fromMs)) / (toMs - fromMs);

/** Each whole hour in sight, with those of a zone that is off by a part of one. */
export function hoursOf({ fromMs, toMs }: Axis): number[] {
  const hours: number[] = [];
  for (let atMs = fromMs; atMs < toMs; atMs += HOUR_MS) hours.push(atMs);
  return hours;
}

/**
 * What of a row is in sight, laid into lanes so that nothing overlaps and no label is cut: what is too short for its label is
 * drawn longer. Where that takes more than `most` lanes, what comes last in a lane takes up what overlaps it, by `merge`.
 */
export function laidOut<Item extends Stretch>(
  items: readonly Item[],
  axis: Axis,
  most: number,
  merge: (one: Item, other: Item) => Item,
): Laid<Item>[] {
  const lanes: Laid<Item>[][] = [];
  const inSight = items.filter(({ fromMs, toMs }) => toMs > axis.fromMs && fromMs < axis.toMs);
  for (const item of inSight.toSorted((a, b) => a.fromMs - b.fromMs)) {
    const drawn = drawnOn(axis, item, 0);
    const free = lanes.findIndex((lane) => isFree(lane.at(-1), drawn));
    if (free >= 0) lanes[free]!.push({ ...drawn, lane: free });
    else if (lanes.length < most) lanes.push([{ ...drawn, lane: lanes.length }]);
    else {
      const lane = lanes.reduce((a, b) => (endOf(b.at(-1)) < endOf(a.at(-1)) ? b : a));
      const last = lane.at(-1)!;
      lane[lane.length - 1] = drawnOn(
        axis,
        { ...merge(last.item, item), ...together(last.item, item) },
        last.lane,
      );
      unlap(lane, axis, merge);
    }
  }
  for (const lane of lanes)
    for (const [k, laid] of lane.entries()) laid.roomPx = (lane[k + 1]?.leftPx ?? axis.widthPx) - endOf(laid);
  return lanes.flat();
}

/** A block that grew to the left, at the axis' end, takes up what it then overlaps. */
function unlap<Item extends Stretch>(
  lane: Laid<Item>[],
  axis: Axis,
  merge: (one: Item, other: Item) => Item,
): void {
  for (;;) {
    const [before, last] = lane.slice(-2);
    if (before === undefined || last === undefined || isFree(before, last)) return;
    const both = { ...merge(before.item, last.item), ...together(before.item, last.item) };
    lane.splice(-2, 2, drawnOn(axis, both, last.lane));
  }
}

const endOf = (laid: Laid<unknown> | undefined): number =>
  laid === undefined ? -Infinity : laid.leftPx + laid.widthPx;

const isFree = (before: Laid<unknown> | undefined, drawn: Laid<unknown>): boolean =>
  endOf(before) + GAP_PX <= drawn.leftPx;

/** Its label is as full as its own length allows, and short where that is not enough. */
function drawnOn<Item extends Stretch>(axis: Axis, item: Item, lane: number): Laid<Item> {
  const [fromPx, toPx] = [pxAt(axis, item.fromMs), pxAt(axis, item.toMs)];
  const ownPx = toPx - fromPx;
  const labels = [3, 2, 1].map((runs) => sayNumbers(item.trays, runs));
  const label = labels.find((text) => labelPx(text) <= ownPx) ?? labels.at(-1)!;
  const widthPx = Math.min(axis.widthPx, Math.max(ownPx, labelPx(label)));
  const leftPx = Math.min(fromPx, axis.widthPx - widthPx);
  return { item, label, leftPx, widthPx, ownPx, lane, roomPx: 0 };
}

export const labelPx = (text: string): number => BESIDE_PX + LETTER_PX * text.length;
