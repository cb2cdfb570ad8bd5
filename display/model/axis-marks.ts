import { byName } from "#shared/collections.ts";
import { isOrderPacked } from "#shared/kitchen/model/order-cookies.ts";
import { traysOf } from "#shared/kitchen/model/lookups.ts";
import { closedSpells } from "#shared/kitchen/model/opening-hours.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { MIN_MS } from "#shared/time.ts";
import { AXIS_END_MIN, axisPlace } from "./time-axis.ts";

/** What stands on the axis beside the trays. */
export interface AxisMarks {
  /** Hours in which the kitchen is closed. */
  closed: readonly { fromMs: number; toMs: number }[];
  /** Pick-ups of orders that are not packed yet, the soonest first. */
  pickUps: readonly PickUp[];
}
export interface PickUp {
  key: string;
  name: string;
  atMs: number;
}

export function axisMarks(kitchen: Kitchen, nowMs: number): AxisMarks {
  const endMs = nowMs + AXIS_END_MIN * MIN_MS;
  const pickUps = Object.values(kitchen.orders)
    .filter(({ pickUpAtMs }) => pickUpAtMs > nowMs && pickUpAtMs <= endMs)
    .filter((order) => !isOrderPacked(order, traysOf(kitchen, order.id)))
    .map(({ id, name, pickUpAtMs }) => ({ key: id, name, atMs: pickUpAtMs }))
    .toSorted((a, b) => a.atMs - b.atMs || (a.key < b.key ? -1 : 1));
  return { closed: closedSpells(kitchen.settings, nowMs, endMs), pickUps };
}

/** A flag at its moment; px from the axis' start. Its words stand to one side of its pole. */
export interface Flag {
  key: string;
  polePx: number;
  /** Absent where the flag beside it says its words as well. */
  label?: { words: string; fromPx: number; row: number };
}

export interface FlagRoom {
  axisPx: number;
  /** Lines for words, one under the other. */
  rows: number;
  gapPx: number;
  widthPx: (words: string) => number;
  /** Ways to say pick-ups that share one flag's words, the fullest first. */
  ways: (pickUps: readonly PickUp[]) => readonly string[];
}

/**
 * Gives each pick-up its pole, and its words a place to the right of it or to the left, in the first line where they lie over
 * no others; where there is none they join those of the nearest flag.
 */
export function placeFlags(pickUps: readonly PickUp[], nowMs: number, room: FlagRoom): Flag[] {
  const poles = pickUps.map((pickUp): Pole => ({
    pickUps: [pickUp],
    polePx: Math.round(room.axisPx * axisPlace((pickUp.atMs - nowMs) / MIN_MS)),
  }));
  let told: readonly Pole[] = poles;
  let labels = labelsOf(told, room);
  while (labels.size < told.length) {
    const fitting = told.filter((pole) => labels.has(keyOf(pole)));
    told = joinNearest(poles, fitting);
    labels = labelsOf(told, room);
  }
  return poles.map((pole) => {
    const label = labels.get(keyOf(pole));
    return { key: keyOf(pole), polePx: pole.polePx, ...(label !== undefined && { label }) };
  });
}

/** A pole with the pick-ups its words name: its own first. */
interface Pole {
  pickUps: readonly PickUp[];
  polePx: number;
}
const keyOf = ({ pickUps }: Pole): string => pickUps[0]!.key;

/** Those poles of `all` that have words, each with the pick-ups that stand nearest to it and have none. */
function joinNearest(all: readonly Pole[], told: readonly Pole[]): Pole[] {
  const keys = new Set(told.map(keyOf));
  const away = (one: Pole, other: Pole): number => Math.abs(one.polePx - other.polePx);
  const nearest = (pole: Pole): Pole | undefined =>
    told.toSorted((a, b) => away(a, pole) - away(b, pole) || a.polePx - b.polePx)[0];
  const joining = byName(
    all.filter((pole) => !keys.has(keyOf(pole))),
    (pole) => keyOf(nearest(pole) ?? pole),
  );
  return all
    .filter((pole) => keys.has(keyOf(pole)))
    .map((pole) => ({
      ...pole,
      pickUps: [pole, ...(joining.get(keyOf(pole)) ?? [])].flatMap(({ pickUps }) => pickUps),
    }));
}

type Labels = Map<string, NonNullable<Flag["label"]>>;

function labelsOf(poles: readonly Pole[], { axisPx, rows, gapPx, widthPx, ways }: FlagRoom): Labels {
  const labels: Labels = new Map();
  const taken: { row: number; fromPx: number; toPx: number }[] = [];
  const isFree = (row: number, fromPx: number, toPx: number): boolean =>
    fromPx >= 0 &&
    toPx <= axisPx &&
    taken.every((one) => one.row !== row || toPx + gapPx <= one.fromPx || fromPx >= one.toPx + gapPx);
  for (const pole of poles) {
    const places = ways(pole.pickUps).flatMap((words) => {
      const width = widthPx(words);
      const sides = [pole.polePx + gapPx, pole.polePx - gapPx - width];
      return Array.from({ length: rows }, (_, row) => row).flatMap((row) =>
        sides.map((fromPx) => ({ words, row, fromPx, toPx: fromPx + width })),
      );
    });
    const place = places.find(({ row, fromPx, toPx }) => isFree(row, fromPx, toPx));
    if (place === undefined) continue;
    taken.push(place);
    labels.set(keyOf(pole), { words: place.words, fromPx: Math.round(place.fromPx), row: place.row });
  }
  return labels;
}
