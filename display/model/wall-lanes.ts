import { createComputed, createMemo, on, untrack } from "solid-js";
import type { Accessor } from "solid-js";
import type { Words } from "#shared/words/words.ts";
import { alike } from "#shared/client/screen/alike.ts";
import { eachLane, type Lane, LANES } from "./coming-in.ts";
import { allotRows, giveRows, holdNeeds, NO_NEEDS } from "./lane-rows.ts";
import type { MeasureEm } from "./measure.ts";
import {
  packLane,
  rowsWanted,
  traysLeft,
  type LaneRoom,
  type PackedLane,
  type Pill,
} from "./pill-packing.ts";
import { watchShifts, type Shifts } from "./shift-words.ts";
import { MIN_MS } from "#shared/time.ts";
import type { BoxCover } from "./time-axis.ts";
import type { WallLayout } from "./wall-layout.ts";

/** A pill with its row, and the least width its words need. */
export interface PlacedPill extends Pill {
  row: number;
  leastPx: number;
}

export type LaneShown = ReturnType<typeof emptyLane>;
/** `cover`: what the boxes of its pills cover. `left`: trays for which there was no row. */
export const emptyLane = () => ({
  rows: 1,
  pills: [] as PlacedPill[],
  cover: "stretch" as BoxCover,
  left: 0,
});

export interface LaneSources {
  words: Accessor<Words>;
  /** The wall's time: it stands still while nothing is heard from the server. */
  nowMs: Accessor<number>;
  layout: Accessor<WallLayout>;
  measure: Accessor<MeasureEm>;
}

/** How long lanes stay as they are once one gave room to another, ms. */
const GIVEN_FOR_MS = 10 * MIN_MS;

/**
 * Puts each lane's pills into rows, and gives them to `show`. Rows are shared out among the lanes by what each has lately
 * wanted, and moved to where a tray would be left out; a lane is packed anew only when its trays, its rows or the layout
 * change, and drifts between.
 */
export function placeLanes(
  { words, nowMs, layout, measure }: LaneSources,
  lanes: Accessor<Readonly<Record<Lane, readonly Pill[]>>>,
  show: (lane: Lane, shown: LaneShown) => void,
): void {
  // The same trays with the same forecasts: where they were put still holds, since packing holds while they drift.
  const pills = eachLane((lane) => createMemo(() => lanes()[lane], undefined, alike));
  const noted = eachLane((lane) => {
    let shifts: Shifts = new Map();
    return createMemo(() => {
      const here = pills[lane]();
      shifts = watchShifts(shifts, here, untrack(nowMs));
      return here.map((pill) => ({ ...pill, note: pill.note ?? shifts.get(pill.key)?.moved?.note }));
    });
  });
  const room = createMemo(() => laneRoom(words(), layout(), measure()));
  const before = eachLane((): { rows: ReadonlyMap<string, number> } => ({ rows: new Map() }));
  const pack = (lane: Lane, rows: number): PackedLane =>
    packLane(noted[lane](), untrack(nowMs), { ...room(), rows }, before[lane].rows);
  let needs = NO_NEEDS;
  let given = { rows: eachLane(() => 0), untilMs: 0 };
  /** How many of the wall's rows each lane has. */
  const rows = createMemo(
    () => {
      const [now, total] = [untrack(nowMs), layout().rows];
      const wanted = eachLane((lane) => rowsWanted(noted[lane](), now, { ...room(), rows: total }));
      needs = holdNeeds(needs, wanted, now);
      const allotted = allotRows(total, needs);
      const known = new Map<string, number>();
      const leftOut = (lane: Lane, rows: number): number => {
        const key = `${lane} ${rows}`;
        const left = known.get(key) ?? traysLeft(pack(lane, rows));
        known.set(key, left);
        return left;
      };
      const isWhole = (of: Readonly<Record<Lane, number>>): boolean =>
        LANES.every((lane) => leftOut(lane, of[lane]) === 0);
      const isSame = sumOf(given.rows) === total;
      if (isSame && now < given.untilMs && isWhole(given.rows)) return given.rows;
      const next = giveRows(allotted, needs, leftOut);
      if (LANES.some((lane) => next[lane] !== allotted[lane]))
        given = { rows: next, untilMs: now + GIVEN_FOR_MS };
      return next;
    },
    undefined,
    alike,
  );
  for (const lane of LANES) {
    const rowsHere = createMemo(() => rows()[lane]);
    createComputed(
      on([noted[lane], rowsHere, room], ([, rows, room]) => {
        const packed = pack(lane, rows);
        before[lane].rows = packed.rows;
        show(lane, {
          pills: packed.pills.map((pill) => ({
            ...pill,
            row: packed.rows.get(pill.key) ?? 0,
            leastPx: room.leastPx(pill),
          })),
          rows,
          cover: packed.cover,
          left: traysLeft(packed),
        });
      }),
    );
  }
}

const sumOf = (rows: Readonly<Record<Lane, number>>): number =>
  LANES.reduce((sum, lane) => sum + rows[lane], 0);

/** A lane's room on this wall: a pill needs its numbers, its words beside them, and padding and border as in coming.css. */
const laneRoom = (
  { wall }: Words,
  { axis, unit, pill, second }: WallLayout,
  measure: MeasureEm,
): Omit<LaneRoom, "rows"> => ({
  axisPx: axis,
  gapPx: 8 * unit,
  leastPx({ note, label, countFromMs }) {
    const word = countFromMs === undefined ? note && wall.pill[note] : "00:00";
    const wordPx = word === undefined ? 0 : measure(word) * second + 8 * unit;
    return Math.ceil(measure(label, 800) * pill + wordPx + 36 * unit);
  },
});
