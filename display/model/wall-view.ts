import { createComputed, createMemo, createSignal, on, untrack } from "solid-js";
import type { Accessor } from "solid-js";
import { createStore, reconcile } from "solid-js/store";
import type { Board } from "#shared/client/screen/board.ts";
import { boardView, type BoardView } from "./board.ts";
import { daySheet, openingLine } from "#shared/kitchen/day-sheet/day-sheet.ts";
import { LANES, type Lane } from "./coming-in.ts";
import type { OrderCard } from "#shared/kitchen/orders/progress.ts";
import { allotRows, holdNeeds, NO_NEEDS } from "./lane-rows.ts";
import { packLane, rowsWanted, type LaneRoom, type Pill } from "./pill-packing.ts";
import { labelEm } from "./pill-text.ts";
import { fitTiles, type ReadyTile } from "#shared/kitchen/tray/ready.ts";
import { watchShifts, type Shifts } from "./shift-words.ts";
import type { BoxCover } from "./time-axis.ts";
import { moreAlertsWords, type WallAlert } from "./wall-alerts.ts";
import { handsLetters, handsRoom, type WallLayout } from "./wall-layout.ts";
import { NO_LIMIT, type HandsLimit } from "#display/view/fit.ts";
import type { Words } from "#shared/words/words.ts";
import { MIN_MS } from "#shared/time.ts";

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

/** What is on the wall, in arrays whose items keep their identity by key: only what changed is drawn again. */
export interface WallShown {
  alerts: WallAlert[];
  /** What has no box of its own. */
  moreAlerts: string;
  /** Of what is hot or on; infinite where all of it has room. */
  toolsLines: number;
  tiles: ReadyTile[];
  /** Alerts took all their room. */
  noTileRoom: boolean;
  more: number[];
  moreToStart: number[];
  lanes: Record<Lane, LaneShown>;
  orders: OrderCard[];
  moreOrders: number;
}

export interface WallView {
  shown: WallShown;
  air: Accessor<BoardView["air"]>;
  change: Accessor<BoardView["change"]>;
  tools: Accessor<BoardView["tools"]>;
  /** Nothing to show: no tray alive, nothing abnormal, nothing hot. */
  isEmpty: Accessor<boolean>;
  /** What of alerts and tiles the browser found room for; anew whenever there is something else to show. */
  limit: Accessor<HandsLimit>;
  setLimit: (limit: HandsLimit) => void;
}

const MORE_ALERTS_LINES = 3;

const emptyLane = (): LaneShown => ({ rows: 1, pills: [], cover: "stretch", left: 0 });
const emptyWall = (): WallShown => ({
  alerts: [],
  moreAlerts: "",
  toolsLines: Number.POSITIVE_INFINITY,
  tiles: [],
  noTileRoom: false,
  more: [],
  moreToStart: [],
  lanes: { flooding: emptyLane(), "heat-set": emptyLane(), crusting: emptyLane(), "full-dry": emptyLane() },
  orders: [],
  moreOrders: 0,
});

/** `nowMs` is the wall's time: it stands still while nothing is heard from the server. */
export function createWallView(
  words: Accessor<Words>,
  board: Pick<Board, "me" | "kitchen" | "forecasts">,
  nowMs: Accessor<number>,
  layout: Accessor<WallLayout>,
): WallView {
  const view = createView(words, board, nowMs);
  const opening = createOpeningLine(board, nowMs);
  const change = createMemo(() => changeBeside(view().change, opening(), nowMs()), undefined, {
    equals: alike,
  });
  const [shown, setShown] = createStore<WallShown>(emptyWall());
  const fitted = createMemo(on([view, layout], () => createSignal(NO_LIMIT)));
  const limit = (): HandsLimit => fitted()[0]();

  createComputed(() => {
    const { alerts, tiles, orders } = view();
    // With room for the words that go before it when the server falls silent: nothing moves then.
    const { text } = view().tools;
    const toolsWords = text === undefined ? "" : words().wall.tools.asLastHeard(text);
    // What is urgent comes before trays that have not been begun, not before those that have waited.
    const canWait = tiles.every(({ is }) => is === "to start");
    const urgent = canWait ? alerts.filter((alert) => alert.class === "urgent").length : 0;
    const room = handsRoom(layout(), alerts.length, toolsWords, urgent);
    const boxes = Math.min(room.alerts, limit().alerts);
    const places = Math.min(room.tiles, limit().tileRows * layout().columns);
    const shownTiles = fitTiles(board.kitchen(), tiles, places);
    setShown("alerts", reconcile(alerts.slice(0, boxes), { key: "key" }));
    setShown("tiles", reconcile([...shownTiles.shown], { key: "key" }));
    setShown("orders", reconcile(orders.slice(0, layout().orderCards), { key: "key" }));
    setShown({
      toolsLines: limit().toolsLines,
      moreAlerts: moreAlertsWords(words(), alerts.slice(boxes), MORE_ALERTS_LINES * handsLetters(layout())),
      noTileRoom: places === 0,
      more: [...shownTiles.more],
      moreToStart: [...shownTiles.moreToStart],
      moreOrders: Math.max(0, orders.length - layout().orderCards),
    });
  });

  const lanePills = (lane: Lane): Accessor<readonly Pill[]> =>
    createMemo(() => view().lanes[lane], undefined, { equals: samePills });
  const pills: Record<Lane, Accessor<readonly Pill[]>> = {
    flooding: lanePills("flooding"),
    "heat-set": lanePills("heat-set"),
    crusting: lanePills("crusting"),
    "full-dry": lanePills("full-dry"),
  };
  let needs = NO_NEEDS;
  const laneRows = createMemo<Record<Lane, number>>(() => {
    const { rows } = layout();
    const room = laneRoom(words(), layout(), 0);
    const want = (lane: Lane): number => {
      const here = pills[lane]();
      return untrack(() => rowsWanted(here, nowMs(), room, rows));
    };
    const wanted = {
      flooding: want("flooding"),
      "heat-set": want("heat-set"),
      crusting: want("crusting"),
      "full-dry": want("full-dry"),
    };
    needs = holdNeeds(needs, wanted, untrack(nowMs));
    return allotRows(rows, needs);
  });
  for (const lane of LANES) {
    const rowsHere = createMemo(() => laneRows()[lane]);
    let rows: ReadonlyMap<string, number> = new Map();
    let shifts: Shifts = new Map();
    createComputed(
      on([pills[lane], layout, rowsHere, words], ([here, layout, rowsHere, words]) => {
        shifts = watchShifts(shifts, here, nowMs());
        const worded = here.map((pill) => withShift(pill, shifts));
        const packed = packLane(worded, nowMs(), laneRoom(words, layout, rowsHere), rows);
        rows = packed.rows;
        const placed = packed.pills.map((pill) => ({ ...pill, row: packed.rows.get(pill.key) ?? 0 }));
        setShown("lanes", lane, "pills", reconcile(placed as PlacedPill[], { key: "key" }));
        setShown("lanes", lane, {
          rows: rowsHere,
          cover: packed.cover,
          left: packed.left.reduce((sum, pill) => sum + pill.trayIds.length, 0),
        });
      }),
    );
  }

  return {
    shown,
    air: createMemo(() => withOpening(view().air, change(), opening()), undefined, { equals: alike }),
    change,
    tools: createMemo(() => view().tools, undefined, { equals: alike }),
    isEmpty: createMemo(
      () =>
        Object.values(board.kitchen().trays).every((tray) => tray.standing.stage === "packed") &&
        view().alerts.length === 0 &&
        Object.keys(view().tools).length === 0,
    ),
    limit,
    setLimit: (limit) => void fitted()[1](limit),
  };
}

/** What the day's air does, told for a while after opening; worked out once a minute. */
function createOpeningLine(
  board: Pick<Board, "kitchen" | "forecasts">,
  nowMs: Accessor<number>,
): Accessor<string | undefined> {
  const minute = createMemo(() => Math.floor(nowMs() / MIN_MS));
  return createMemo(
    on(minute, () => {
      const [kitchen, now] = [board.kitchen(), nowMs()];
      const sheet = daySheet(kitchen, board.forecasts(), undefined, now);
      return sheet === undefined ? undefined : openingLine(kitchen, sheet, now);
    }),
  );
}

/** After this long what changed gives its room to the day's line: it is told for an hour, as long as most of opening. */
const NEWS_FIRST_MS = 15 * MIN_MS;

const changeBeside = (
  change: BoardView["change"],
  opening: string | undefined,
  nowMs: number,
): BoardView["change"] =>
  change !== undefined && opening !== undefined && nowMs - change.atMs >= NEWS_FIRST_MS ? undefined : change;

/** The day's line stands with the air and takes the room of what changed. */
function withOpening(
  air: BoardView["air"],
  change: BoardView["change"],
  opening: string | undefined,
): BoardView["air"] {
  if (air === undefined || change !== undefined || opening === undefined) return air;
  const [, first = opening, rest = air.meaning] = /^(.+?\.) (.+)$/.exec(opening) ?? [];
  return { ...air, place: `${air.place} · ${first}`, meaning: rest };
}

/** The view, worked out again only when something happened or came due. */
function createView(
  words: Accessor<Words>,
  board: Pick<Board, "me" | "kitchen" | "forecasts">,
  nowMs: Accessor<number>,
): Accessor<BoardView> {
  let of: unknown[] = [];
  return createMemo<BoardView>((held) => {
    const [kitchen, forecasts, now] = [board.kitchen(), board.forecasts(), nowMs()];
    const made = [kitchen, forecasts, words()];
    if (held !== undefined && made.every((part, k) => part === of[k]) && now < held.holdsUntilMs) return held;
    of = made;
    return boardView(words(), kitchen, forecasts, now, board.me.personId);
  });
}

/** The same trays with the same forecasts: where they were put still holds, since packing holds while they drift. */
const samePills = (before: readonly Pill[], after: readonly Pill[]): boolean =>
  before.length === after.length &&
  before.every((a, index) => {
    const b = after[index]!;
    return (
      a.key === b.key &&
      a.earliestMs === b.earliestMs &&
      a.likelyMs === b.likelyMs &&
      a.latestMs === b.latestMs &&
      a.note === b.note &&
      a.countFromMs === b.countFromMs &&
      a.isOverdue === b.isOverdue
    );
  });

const alike = <Value>(a: Value, b: Value): boolean => JSON.stringify(a) === JSON.stringify(b);

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
    leastPx(pill) {
      const note = pill.note === undefined ? "" : wall.pill[pill.note];
      const word = pill.countFromMs === undefined ? note.length * WORD_EM.letter : WORD_EM.stopwatch;
      return labelEm(pill.label) * pillFont + (word === 0 ? 0 : word * second + 8 * unit) + 36 * unit;
    },
  };
}
