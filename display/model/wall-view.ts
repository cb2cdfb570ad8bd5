import { createComputed, createMemo, createSignal, on } from "solid-js";
import type { Accessor } from "solid-js";
import { createStore, reconcile } from "solid-js/store";
import type { Board } from "#shared/client/screen/board.ts";
import { daySheet, openingLine } from "#shared/kitchen/day-sheet/day-sheet.ts";
import { type FittedTiles, fitTiles } from "#shared/kitchen/tray/ready.ts";
import { MIN_MS } from "#shared/time.ts";
import { MOST_CUTS, NO_LIMIT, UNMEASURED, type HandsLimit, type TilesRoom } from "#display/view/fit.ts";
import { alike } from "#shared/client/screen/alike.ts";
import { boardView, type BoardView } from "./board.ts";
import { eachLane } from "./coming-in.ts";
import { createFlags } from "./wall-flags.ts";
import { moreAlertsWays } from "./wall-alerts.ts";
import { growTiles, plainTiles } from "./tile-growth.ts";
import { emptyLane, type LaneSources, placeLanes } from "./wall-lanes.ts";
import { handsRoom, tilesRoomOf } from "./wall-layout.ts";

/** What is on the wall, in arrays whose items keep their identity by key: only what changed is drawn again. */
const emptyWall = () => {
  const { alerts, tiles, orders }: Pick<BoardView, "alerts" | "tiles" | "orders"> = {
    alerts: [],
    tiles: [],
    orders: [],
  };
  return { alerts, tiles, orders, lanes: eachLane(emptyLane) };
};

/** Opens the next act of these trays. */
export type OnOpen = (item: { trayIds: readonly string[] }) => void;

export interface WallSources extends LaneSources {
  board: Pick<Board, "me" | "kitchen" | "forecasts">;
  /** Nothing is heard: nothing is promised. */
  isStale: Accessor<boolean>;
  /** A bench can be touched; a wall only shows. */
  onOpen: OnOpen | undefined;
}
export type WallView = ReturnType<typeof createWallView>;

/** After this long what changed gives its room to the day's line: it is shown for an hour, as long as most of opening. */
const NEWS_FIRST_MS = 15 * MIN_MS;

/**
 * From the board to what the wall shows of it: everything there is to show (`boardView`), as much as the layout has room for
 * (`handsRoom`), and of that what the browser measured to fit (`limit`).
 */
export function createWallView(sources: WallSources) {
  const { words, board, nowMs, layout } = sources;
  // The view, worked out again only when something happened or came due.
  const views = createMemo(
    on([board.kitchen, board.forecasts, words], ([kitchen, forecasts, words]) =>
      createMemo<BoardView>((held) =>
        held !== undefined && nowMs() < held.holdsUntilMs
          ? held
          : boardView(words, kitchen, forecasts, nowMs(), board.me.personId),
      ),
    ),
  );
  const view = createMemo(() => views()());
  /** How many alerts and tiles the layout has room for. */
  const most = createMemo(
    () => {
      const { alerts, tiles } = view();
      // What is urgent comes before trays that have not been begun, not before those that have waited.
      const canWait = tiles.every(({ is }) => is === "to start");
      const urgent = canWait ? alerts.filter((alert) => alert.class === "urgent").length : 0;
      return handsRoom(layout(), alerts.length, urgent);
    },
    undefined,
    alike,
  );
  const fitIn = (tiles: number): FittedTiles => fitTiles(board.kitchen(), view().tiles, tiles);
  // What of alerts and tiles the browser found room for; anew whenever there is something else to show there.
  const inHands = createMemo(
    () => ({ alerts: view().alerts, tools: view().tools, ...fitIn(most().tiles) }),
    undefined,
    alike,
  );
  const fitted = createMemo(
    on([inHands, layout, words], () => ({
      limit: createSignal<HandsLimit>(NO_LIMIT),
      tilesRoom: createSignal<TilesRoom>(UNMEASURED),
    })),
  );
  const limit = (): HandsLimit => fitted().limit[0]();
  const tilesRoom = (): TilesRoom => fitted().tilesRoom[0]();

  const room = createMemo(() => ({
    alerts: Math.min(most().alerts, limit().alerts),
    tiles: Math.min(most().tiles, limit().tileRows * layout().columns),
  }));
  const fit = createMemo(() => fitIn(room().tiles));
  const [shown, setShown] = createStore(emptyWall());
  const show = (part: "alerts" | "tiles" | "orders", items: () => readonly { key: string }[]): void =>
    createComputed(() => setShown(part, reconcile([...items()] as never, { key: "key" })));
  show("alerts", () => view().alerts.slice(0, room().alerts));
  show("tiles", () => fit().shown);
  show("orders", () => view().orders.slice(0, layout().orderCards));
  placeLanes(
    sources,
    () => view().lanes,
    (lane, { pills, ...rest }) => {
      setShown("lanes", lane, "pills", reconcile(pills, { key: "key" }));
      setShown("lanes", lane, rest);
    },
  );

  // What the day's air does, shown for a while after opening; worked out once a minute.
  const minute = createMemo(() => Math.floor(nowMs() / MIN_MS));
  const opening = createMemo(
    on(minute, () => {
      const [kitchen, now] = [board.kitchen(), nowMs()];
      const sheet = daySheet(kitchen, board.forecasts(), undefined, now);
      return sheet && openingLine(kitchen, sheet, now);
    }),
  );
  const change = createMemo(
    () => {
      const { change } = view();
      const isOld = change !== undefined && nowMs() - change.atMs >= NEWS_FIRST_MS;
      return isOld && opening() !== undefined ? undefined : change;
    },
    undefined,
    alike,
  );
  /** The day's line stands with the air and takes the room of what changed. */
  const air = createMemo(
    () => {
      const [{ air }, line] = [view(), opening()];
      if (air === undefined || change() !== undefined || line === undefined) return air;
      const said = words().day.headline(line);
      return { ...air, place: `${air.place} · ${said.air}`, meaning: said.films ?? air.meaning };
    },
    undefined,
    alike,
  );

  return {
    ...sources,
    shown,
    marks: createMemo(() => view().marks, undefined, alike),
    flags: createFlags(sources, () => view().marks.pickUps),
    /** Ways to say which alerts have no box of their own, the fullest first. */
    moreAlerts: createMemo(
      () => moreAlertsWays(words(), view().alerts.slice(room().alerts)),
      undefined,
      alike,
    ),
    /** Trays that have no tile. */
    more: createMemo(() => ({ ready: fit().more, toStart: fit().moreToStart }), undefined, alike),
    /** Alerts took all the room of tiles. */
    noTileRoom: () => room().tiles === 0,
    moreOrders: () => Math.max(0, view().orders.length - layout().orderCards),
    air,
    change,
    tools: createMemo(() => view().tools, undefined, alike),
    /** Nothing to show: no tray alive, nothing abnormal, nothing hot. */
    isEmpty: createMemo(
      () =>
        Object.values(board.kitchen().trays).every((tray) => tray.status.stage === "packed") &&
        view().alerts.length === 0 &&
        Object.keys(view().tools).length === 0,
    ),
    limit,
    setLimit: (limit: HandsLimit) => void fitted().limit[1](limit),
    /** How large the tiles are: few of them fill the room that many would. */
    tileSize: createMemo(
      () => {
        const { px = tilesRoomOf(layout(), shown.alerts.length), cuts } = tilesRoom();
        return cuts < MOST_CUTS ? growTiles(layout(), shown.tiles.length, px) : plainTiles(layout());
      },
      undefined,
      alike,
    ),
    tilesRoom,
    setTilesRoom: (room: TilesRoom) => void fitted().tilesRoom[1](room),
  };
}
