import { createEffect, createMemo, createSignal, onCleanup, Show } from "solid-js";
import type { Accessor, JSX } from "solid-js";
import type { Board } from "#shared/client/screen/board.ts";
import { useWords } from "#shared/client/screen/language.ts";
import { STALE_MS } from "#shared/client/sync/link.ts";
import { ActSheet, type Done } from "./act-sheet.tsx";
import { Alerts } from "./alerts.tsx";
import { Begin } from "#display/app/begin.tsx";
import { Coming } from "./coming.tsx";
import { fitHands } from "./fit.ts";
import { Hands } from "./hands.tsx";
import { createBenchPerson } from "#display/model/bench-person.ts";
import { createLayout, layoutVars, type MeasureEm, type Screen } from "#display/model/measure.ts";
import { Orders } from "./orders.tsx";
import { Refusals } from "./refusals.tsx";
import { TopBar } from "./top-bar.tsx";
import { createWallView, type OnOpen } from "#display/model/wall-view.ts";
import { refusedOf } from "#shared/client/sync/outbox.ts";
import type { Invite } from "#shared/protocol/invite.ts";
import type { Timer } from "#shared/client/sync/timer.ts";
import { LARGE_UNITS, type WallLayout } from "#display/model/wall-layout.ts";

export interface BoardScreenProps {
  board: Board;
  screen: Accessor<Screen>;
  measure: Accessor<MeasureEm>;
  /** Asks for what phones join with. */
  invite: () => Promise<Invite | undefined>;
  isBench: boolean;
  timer: Timer;
  corner(layout: Accessor<WallLayout>): JSX.Element;
}

const UNDO_MS = 20_000;

/** The wall itself. While nothing is heard from the server its time stands still and it promises nothing. */
export function BoardScreen(props: BoardScreenProps): JSX.Element {
  const words = useWords();
  const { board } = props;
  const isStale = createMemo(() => {
    const heardAtMs = board.heardAtMs();
    const { is } = board.connection();
    if ((is !== "lost" && is !== "outdated") || heardAtMs === undefined) return false;
    return (board.nowMs() - heardAtMs) / board.speed() > STALE_MS;
  });
  const nowMs = createMemo<number>(
    (held) => (isStale() ? (board.heardAtMs() ?? held) : board.nowMs()),
    board.nowMs(),
  );
  const layout = createLayout(words, props.screen, board.kitchen, props.measure);
  const [open, setOpen] = createSignal<readonly string[]>();
  const onOpen: OnOpen | undefined = props.isBench ? ({ trayIds }) => setOpen([...trayIds]) : undefined;
  const { measure } = props;
  const view = createWallView({ words, board, nowMs, isStale, layout, measure, onOpen });
  const [done, setDone] = createSignal<Done>();
  const person = createBenchPerson(board.kitchen, board.me.personId, props.timer);

  function undo({ undo }: Done): void {
    const acted = undo && board.act(undo);
    setDone(acted?.ok === false ? { words: words().refusals.say(acted.refusal.fact) } : undefined);
  }

  // What was refused needs no undo: its refusal stands beside.
  createEffect(() => {
    const undo = done()?.undo;
    const isRefused = refusedOf(board.outbox()).some(
      ({ command }) => undo?.type === "take-back" && command.commandId === undo.actId,
    );
    if (isRefused) setDone(undefined);
  });
  createEffect(() => {
    if (done() === undefined) return;
    onCleanup(props.timer.after(UNDO_MS, () => setDone(undefined)));
  });
  createEffect(() => document.documentElement.style.setProperty("font-size", `${20 * layout().unit}px`));

  return (
    <div
      class="wall"
      data-stale={isStale()}
      data-fast={board.speed() > 1 && !isStale()}
      data-shape={layout().isPortrait ? "portrait" : "landscape"}
      data-empty={view.isEmpty() && view.shown.orders.length === 0}
      data-narrow={layout().width < 62 * layout().second}
      data-large={layout().act > LARGE_UNITS * layout().unit}
      style={layoutVars(layout())}
    >
      <TopBar board={board} view={view} corner={props.corner(layout)} />
      <Show when={!view.isEmpty()} fallback={<Begin kitchen={board.kitchen()} invite={props.invite} />}>
        <main class="board">
          <div class="hands-part" ref={(part) => fitHands(part, view)}>
            <section
              class="hands"
              aria-label={words().wall.ready.title}
              style={{ "--second": `${layout().second * view.limit().letters}px` }}
            >
              <Show when={view.shown.alerts.length > 0}>
                <Alerts view={view} />
              </Show>
              <Hands view={view} />
            </section>
          </div>
          <Coming view={view} />
        </main>
      </Show>
      <Orders
        orders={view.shown.orders}
        kitchen={board.kitchen}
        nowMs={nowMs}
        more={view.moreOrders()}
        isStale={isStale()}
        practiceSpeed={board.practice() ? board.speed() : undefined}
      />
      <Show when={open()} keyed>
        {(trayIds) => (
          <ActSheet
            board={board}
            timer={props.timer}
            trayIds={trayIds}
            person={person}
            onClose={() => setOpen(undefined)}
            onDone={(act) => {
              setOpen(undefined);
              setDone(act);
            }}
          />
        )}
      </Show>
      <Show when={props.isBench}>
        <div class="notices">
          <Refusals board={board} timer={props.timer} />
          <Show when={done()}>
            {(act) => (
              <p class="toast" role="status">
                {act().words}
                <button type="button" onClick={() => undo(act())}>
                  {act().undo === undefined ? words().alerts.refused.understood : words().wall.sheet.undo}
                </button>
              </p>
            )}
          </Show>
        </div>
      </Show>
    </div>
  );
}
