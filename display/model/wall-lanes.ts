import { createComputed, createMemo, on, untrack } from "solid-js";
import type { Accessor } from "solid-js";
import type { Words } from "#shared/words/words.ts";
import { eachLane, type Lane, LANES } from "./coming-in.ts";
import { allotRows, holdNeeds, NO_NEEDS } from "./lane-rows.ts";
import { packLane, rowsWanted, type LaneRoom, type Pill } from "./pill-packing.ts";
import { labelEm } from "./pill-text.ts";
import { watchShifts, type Shifts } from "./shift-words.ts";
import type { BoxCover } from "./time-axis.ts";
import type { WallLayout } from "./wall-layout.ts";

/** A pill with its row. */
export interface PlacedPill extends Pill {
  row: number;
}

export interface LaneShown {
  rows: number;
  pills: PlacedPill[];
  /** What the boxes of its pills cover. */
  cover: BoxCover;
  /** Trays for which there was no row. */
  left: number;
}

export const emptyLane = (): LaneShown => ({ rows: 1, pills: [], cover: "stretch", left: 0 });

/**
 * Puts each lane's pills into rows, and gives them to `show`. Rows are shared out among the lanes by what
 * each has lately wanted; a lane is packed anew only when its trays, its rows or the layout change, and drifts between.
 */
export function placeLanes(
  words: Accessor<Words>,
  lanes: Accessor<Readonly<Record<Lane, readonly Pill[]>>>,
  nowMs: Accessor<number>,
  layout: Accessor<WallLayout>,
  show: (lane: Lane, shown: LaneShown) => void,
): void {
  const pills = eachLane((lane) => createMemo(() => lanes()[lane], undefined, { equals: samePills }));
  const rows = createRows(words, pills, nowMs, layout);
  for (const lane of LANES) {
    const rowsHere = createMemo(() => rows()[lane]);
    let held: ReadonlyMap<string, number> = new Map();
    let shifts: Shifts = new Map();
    createComputed(
      on([pills[lane], layout, rowsHere, words], ([here, layout, rowsHere, words]) => {
        shifts = watchShifts(shifts, here, nowMs());
        const noted = here.map((pill) => withShift(pill, shifts));
        const packed = packLane(noted, nowMs(), laneRoom(words, layout, rowsHere), held);
        held = packed.rows;
        show(lane, {
          pills: packed.pills.map((pill) => ({ ...pill, row: packed.rows.get(pill.key) ?? 0 })),
          rows: rowsHere,
          cover: packed.cover,
          left: packed.left.reduce((sum, pill) => sum + pill.trayIds.length, 0),
        });
      }),
    );
  }
}

/** How many of the wall's rows each lane has. */
function createRows(
  words: Accessor<Words>,
  pills: Readonly<Record<Lane, Accessor<readonly Pill[]>>>,
  nowMs: Accessor<number>,
  layout: Accessor<WallLayout>,
): Accessor<Record<Lane, number>> {
  let needs = NO_NEEDS;
  return createMemo(() => {
    const { rows } = layout();
    const room = laneRoom(words(), layout(), 0);
    const wanted = eachLane((lane) => {
      const here = pills[lane]();
      return untrack(() => rowsWanted(here, nowMs(), room, rows));
    });
    needs = holdNeeds(needs, wanted, untrack(nowMs));
    return allotRows(rows, needs);
  });
}

/** The same trays with the same forecasts: where they were put still holds, since packing holds while they drift. */
const samePills = (before: readonly Pill[], after: readonly Pill[]): boolean =>
  before.length === after.length && before.every((pill, index) => isSame(pill, after[index]!));

const isSame = (a: Pill, b: Pill): boolean =>
  (["key", "earliestMs", "likelyMs", "latestMs", "note", "countFromMs", "isOverdue"] as const).every(
    (part) => a[part] === b[part],
  );

function withShift(pill: Pill, shifts: Shifts): Pill {
  const note = pill.note ?? shifts.get(pill.key)?.moved?.note;
  return note === undefined ? pill : { ...pill, note };
}

/** Widths, in parts of their font size, that a pill's words need beside its numbers. */
const WORD_EM = { stopwatch: 2.9, letter: 0.54 } as const;

/** The room of a lane with so many rows on this wall. Widths are those of coming.css. */
export function laneRoom({ wall }: Words, layout: WallLayout, rows: number): LaneRoom {
  const { axis, unit, pill: pillFont, second } = layout;
  return {
    axisPx: axis,
    rows,
    gapPx: 8 * unit,
    leastPx({ note, label, countFromMs }) {
      const letters = note === undefined ? 0 : wall.pill[note].length;
      const word = countFromMs === undefined ? letters * WORD_EM.letter : WORD_EM.stopwatch;
      return labelEm(label) * pillFont + (word === 0 ? 0 : word * second + 8 * unit) + 36 * unit;
    },
  };
}
