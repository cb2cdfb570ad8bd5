import { createComputed, createMemo, on, untrack } from "solid-js";
import type { Accessor } from "solid-js";
import type { Words } from "#shared/words/words.ts";
import { alike } from "./alike.ts";
import { eachLane, type Lane, LANES } from "./coming-in.ts";
import { allotRows, holdNeeds, NO_NEEDS } from "./lane-rows.ts";
import type { MeasureEm } from "./measure.ts";
import { packLane, rowsWanted, type LaneRoom, type Pill } from "./pill-packing.ts";
import { watchShifts, type Shifts } from "./shift-words.ts";
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

/**
 * Puts each lane's pills into rows, and gives them to `show`. Rows are shared out among the lanes by what each has lately
 * wanted; a lane is packed anew only when its trays, its rows or the layout change, and drifts between.
 */
export function placeLanes(
  { words, nowMs, layout, measure }: LaneSources,
  lanes: Accessor<Readonly<Record<Lane, readonly Pill[]>>>,
  show: (lane: Lane, shown: LaneShown) => void,
): void {
  // The same trays with the same forecasts: where they were put still holds, since packing holds while they drift.
  const pills = eachLane((lane) => createMemo(() => lanes()[lane], undefined, alike));
  const room = createMemo(() => laneRoom(words(), layout(), measure()));
  let needs = NO_NEEDS;
  /** How many of the wall's rows each lane has. */
  const rows = createMemo(() => {
    const wanted = eachLane((lane) => {
      const [here, most] = [pills[lane](), { ...room(), rows: layout().rows }];
      return rowsWanted(here, untrack(nowMs), most);
    });
    needs = holdNeeds(needs, wanted, untrack(nowMs));
    return allotRows(layout().rows, needs);
  });
  for (const lane of LANES) {
    const rowsHere = createMemo(() => rows()[lane]);
    let held: ReadonlyMap<string, number> = new Map();
    let shifts: Shifts = new Map();
    createComputed(
      on([pills[lane], rowsHere, room], ([here, rows, room]) => {
        shifts = watchShifts(shifts, here, nowMs());
        const noted = here.map((pill) => ({ ...pill, note: pill.note ?? shifts.get(pill.key)?.moved?.note }));
        const packed = packLane(noted, nowMs(), { ...room, rows }, held);
        held = packed.rows;
        show(lane, {
          pills: packed.pills.map((pill) => ({
            ...pill,
            row: held.get(pill.key) ?? 0,
            leastPx: room.leastPx(pill),
          })),
          rows,
          cover: packed.cover,
          left: packed.left.reduce((sum, pill) => sum + pill.trayIds.length, 0),
        });
      }),
    );
  }
}

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
