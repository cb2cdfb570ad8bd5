import { createComputed, createMemo, on } from "solid-js";
import type { Accessor } from "solid-js";
import { createStore, reconcile } from "solid-js/store";
import type { Board } from "#shared/client/solid-board.ts";
import { boardView, type BoardView } from "#shared/kitchen/board.ts";
import { LANES, type Lane } from "#shared/kitchen/coming-in.ts";
import type { OrderCard } from "#shared/kitchen/order-strip.ts";
import { packLane, type LaneRoom, type Pill } from "#shared/kitchen/pill-packing.ts";
import { labelEm } from "#shared/kitchen/pill-text.ts";
import { fitTiles, type ReadyTile } from "#shared/kitchen/ready-tiles.ts";
import { watchShifts, type Shifts } from "#shared/kitchen/shift-words.ts";
import type { WallAlert } from "#shared/kitchen/wall-alerts.ts";
import { handsRoom, type WallLayout } from "#shared/kitchen/wall-layout.ts";

/** A pill with its row. */
export interface PlacedPill extends Pill {
  row: number;
}

/** What is on the wall, in arrays whose items keep their identity by key: only what changed is drawn again. */
export interface WallShown {
  alerts: WallAlert[];
  moreAlerts: number;
  tiles: ReadyTile[];
  more: number[];
  moreToStart: number[];
  pills: Record<Lane, PlacedPill[]>;
  /** Trays of a lane for which there was no row. */
  left: Record<Lane, number>;
  orders: OrderCard[];
  moreOrders: number;
}

export interface WallView {
  shown: WallShown;
  air: Accessor<BoardView["air"]>;
  change: Accessor<BoardView["change"]>;
  /** Nothing to show: no tray alive. */
  isEmpty: Accessor<boolean>;
}

const EMPTY: WallShown = {
  alerts: [],
  moreAlerts: 0,
  tiles: [],
  more: [],
  moreToStart: [],
  pills: { flooding: [], "heat-set": [], crusting: [], "full-dry": [] },
  left: { flooding: 0, "heat-set": 0, crusting: 0, "full-dry": 0 },
  orders: [],
  moreOrders: 0,
};

/** `nowMs` is the wall's time: it stands still while nothing is heard from the server. */
export function createWallView(
  board: Pick<Board, "kitchen" | "forecasts">,
  nowMs: Accessor<number>,
  layout: Accessor<WallLayout>,
): WallView {
  const view = createView(board, nowMs);
  const [shown, setShown] = createStore<WallShown>(structuredClone(EMPTY));

  createComputed(() => {
    const { alerts, tiles, orders } = view();
    const room = handsRoom(layout(), alerts.length);
    const fitted = fitTiles(board.kitchen(), tiles, room.tiles);
    setShown("alerts", reconcile(alerts.slice(0, room.alerts), { key: "key" }));
    setShown("tiles", reconcile([...fitted.shown], { key: "key" }));
    setShown("orders", reconcile(orders.slice(0, layout().orderCards), { key: "key" }));
    setShown({
      moreAlerts: Math.max(0, alerts.length - room.alerts),
      more: [...fitted.more],
      moreToStart: [...fitted.moreToStart],
      moreOrders: Math.max(0, orders.length - layout().orderCards),
    });
  });

  for (const { lane } of LANES) {
    let rows: ReadonlyMap<string, number> = new Map();
    let shifts: Shifts = new Map();
    createComputed(
      on([() => view().lanes[lane], layout], ([pills, layout]) => {
        shifts = watchShifts(shifts, pills, nowMs());
        const worded = pills.map((pill) => withShift(pill, shifts));
        const packed = packLane(worded, nowMs(), laneRoom(layout, lane), rows);
        rows = packed.rows;
        const placed = packed.pills.map((pill) => ({ ...pill, row: packed.rows.get(pill.key) ?? 0 }));
        setShown("pills", lane, reconcile(placed as PlacedPill[], { key: "key" }));
        setShown(
          "left",
          lane,
          packed.left.reduce((sum, pill) => sum + pill.trayIds.length, 0),
        );
      }),
    );
  }

  return {
    shown,
    air: createMemo(() => view().air, undefined, { equals: alike }),
    change: createMemo(() => view().change, undefined, { equals: alike }),
    isEmpty: createMemo(() =>
      Object.values(board.kitchen().trays).every((tray) => tray.standing.stage === "packed"),
    ),
  };
}

/** The view, worked out again only when something happened or came due. */
function createView(
  board: Pick<Board, "kitchen" | "forecasts">,
  nowMs: Accessor<number>,
): Accessor<BoardView> {
  let of: unknown[] = [];
  return createMemo<BoardView>((held) => {
    const [kitchen, forecasts, now] = [board.kitchen(), board.forecasts(), nowMs()];
    if (held !== undefined && of[0] === kitchen && of[1] === forecasts && now < held.holdsUntilMs)
      return held;
    of = [kitchen, forecasts];
    return boardView(kitchen, forecasts, now);
  });
}

const alike = <Value>(a: Value, b: Value): boolean => JSON.stringify(a) === JSON.stringify(b);

function withShift(pill: Pill, shifts: Shifts): Pill {
  const word = pill.word ?? shifts.get(pill.key)?.moved?.word;
  return word === undefined ? pill : { ...pill, word };
}

/** Widths, in parts of their font size, that a pill's words need beside its numbers. */
const WORD_EM = { stopwatch: 2.9, letter: 0.54 } as const;

/** What a lane of this wall holds. Widths are those of theme.css. */
export function laneRoom(layout: WallLayout, lane: Lane): LaneRoom {
  const { axis, laneRows, unit, pill: pillFont, second } = layout;
  return {
    axisPx: axis,
    rows: laneRows[lane],
    gapPx: 8 * unit,
    leastPx(pill) {
      const word =
        pill.countFromMs === undefined ? (pill.word?.length ?? 0) * WORD_EM.letter : WORD_EM.stopwatch;
      return labelEm(pill.label) * pillFont + (word === 0 ? 0 : word * second + 8 * unit) + 36 * unit;
    },
  };
}
