import { createComputed, createMemo, createSignal, on } from "solid-js";
import type { Accessor } from "solid-js";
import { createStore, reconcile } from "solid-js/store";
import type { Board } from "#shared/client/screen/board.ts";
import type { Headline } from "#shared/kitchen/day-sheet/headline.ts";
import { daySheet, openingLine } from "#shared/kitchen/day-sheet/day-sheet.ts";
import type { OrderCard } from "#shared/kitchen/orders/progress.ts";
import { fitTiles, type ReadyTile } from "#shared/kitchen/tray/ready.ts";
import { MIN_MS } from "#shared/time.ts";
import type { Words } from "#shared/words/words.ts";
import { NO_LIMIT, type HandsLimit } from "#display/view/fit.ts";
import { boardView, type BoardView } from "./board.ts";
import { eachLane, type Lane } from "./coming-in.ts";
import { moreAlertsWords, type WallAlert } from "./wall-alerts.ts";
import { emptyLane, placeLanes, type LaneShown } from "./wall-lanes.ts";
import { handsLetters, handsRoom } from "./hands-room.ts";
import { type WallLayout } from "./wall-layout.ts";

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

type ShownBoard = Pick<Board, "me" | "kitchen" | "forecasts">;

/**
 * From the board to what the wall shows of it: everything there is to show (`boardView`), as much as the layout has room for
 * (`handsRoom`), and of that what the browser measured to fit (`limit`). `nowMs` is the wall's time: it stands still while
 * nothing is heard from the server.
 */
export function createWallView(
  words: Accessor<Words>,
  board: ShownBoard,
  nowMs: Accessor<number>,
  layout: Accessor<WallLayout>,
): WallView {
  const view = createView(words, board, nowMs);
  const opening = createOpeningLine(board, nowMs);
  const change = createMemo(() => changeBeside(view().change, opening(), nowMs()), undefined, {
    equals: alike,
  });
  const fitted = createMemo(on([view, layout], () => createSignal(NO_LIMIT)));
  const limit = (): HandsLimit => fitted()[0]();
  const [shown, setShown] = createStore<WallShown>(emptyWall());

  createComputed(() => {
    const { alerts, tiles, orders } = view();
    const { boxes, places } = roomFor(words(), view(), layout(), limit());
    const fit = fitTiles(board.kitchen(), tiles, places);
    const cards = layout().orderCards;
    setShown("alerts", reconcile(alerts.slice(0, boxes), { key: "key" }));
    setShown("tiles", reconcile([...fit.shown], { key: "key" }));
    setShown("orders", reconcile(orders.slice(0, cards), { key: "key" }));
    setShown({
      toolsLines: limit().toolsLines,
      moreAlerts: moreAlertsWords(words(), alerts.slice(boxes), MORE_ALERTS_LINES * handsLetters(layout())),
      noTileRoom: places === 0,
      more: [...fit.more],
      moreToStart: [...fit.moreToStart],
      moreOrders: Math.max(0, orders.length - cards),
    });
  });
  const lanes = () => view().lanes;
  placeLanes(words, lanes, nowMs, layout, (lane, { pills, ...rest }) => {
    setShown("lanes", lane, "pills", reconcile(pills, { key: "key" }));
    setShown("lanes", lane, rest);
  });

  return {
    shown,
    air: createMemo(() => withOpening(view().air, change(), opening(), words()), undefined, {
      equals: alike,
    }),
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

const MORE_ALERTS_LINES = 3;

const emptyWall = (): WallShown => ({
  alerts: [],
  moreAlerts: "",
  toolsLines: Number.POSITIVE_INFINITY,
  tiles: [],
  noTileRoom: false,
  more: [],
  moreToStart: [],
  lanes: eachLane(emptyLane),
  orders: [],
  moreOrders: 0,
});

/** The view, worked out again only when something happened or came due. */
function createView(words: Accessor<Words>, board: ShownBoard, nowMs: Accessor<number>): Accessor<BoardView> {
  let of: unknown[] = [];
  return createMemo<BoardView>((held) => {
    const made = [board.kitchen(), board.forecasts(), words()] as const;
    const isHeld = made.every((part, k) => part === of[k]);
    if (held !== undefined && isHeld && nowMs() < held.holdsUntilMs) return held;
    of = [...made];
    return boardView(words(), board.kitchen(), board.forecasts(), nowMs(), board.me.personId);
  });
}

/** How many alerts have a box, and how many tiles a place. */
function roomFor(
  { wall }: Words,
  { alerts, tiles, tools }: BoardView,
  layout: WallLayout,
  limit: HandsLimit,
): { boxes: number; places: number } {
  // With room for the words that go before it when the server falls silent: nothing moves then.
  const toolsWords = tools.text === undefined ? "" : wall.tools.asLastHeard(tools.text);
  // What is urgent comes before trays that have not been begun, not before those that have waited.
  const canWait = tiles.every(({ is }) => is === "to start");
  const urgent = canWait ? alerts.filter((alert) => alert.class === "urgent").length : 0;
  const room = handsRoom(layout, alerts.length, toolsWords, urgent);
  return {
    boxes: Math.min(room.alerts, limit.alerts),
    places: Math.min(room.tiles, limit.tileRows * layout.columns),
  };
}

/** What the day's air does, shown for a while after opening; worked out once a minute. */
function createOpeningLine(
  board: Pick<Board, "kitchen" | "forecasts">,
  nowMs: Accessor<number>,
): Accessor<Headline | undefined> {
  const minute = createMemo(() => Math.floor(nowMs() / MIN_MS));
  return createMemo(
    on(minute, () => {
      const [kitchen, now] = [board.kitchen(), nowMs()];
      const sheet = daySheet(kitchen, board.forecasts(), undefined, now);
      return sheet === undefined ? undefined : openingLine(kitchen, sheet, now);
    }),
  );
}

/** After this long what changed gives its room to the day's line: it is shown for an hour, as long as most of opening. */
const NEWS_FIRST_MS = 15 * MIN_MS;

const changeBeside = (
  change: BoardView["change"],
  opening: Headline | undefined,
  nowMs: number,
): BoardView["change"] =>
  change !== undefined && opening !== undefined && nowMs - change.atMs >= NEWS_FIRST_MS ? undefined : change;

/** The day's line stands with the air and takes the room of what changed. */
function withOpening(
  air: BoardView["air"],
  change: BoardView["change"],
  opening: Headline | undefined,
  words: Words,
): BoardView["air"] {
  if (air === undefined || change !== undefined || opening === undefined) return air;
  const line = words.day.headline(opening);
  return { ...air, place: `${air.place} · ${line.air}`, meaning: line.films ?? air.meaning };
}

const alike = <Value>(a: Value, b: Value): boolean => JSON.stringify(a) === JSON.stringify(b);
