import { createMemo, Show } from "solid-js";
import type { JSX } from "solid-js";
import { useWords } from "#shared/client/screen/language.ts";
import type { Board } from "#shared/client/screen/board.ts";
import type { Words } from "#shared/words/words.ts";
import { fitAlarmLine } from "./fit.ts";
import type { WallView } from "#display/model/wall-view.ts";

/** Clock, the air and what it means, what changed, and the connection; or across all that, what is wrong. */
export function TopBar(props: { board: Board; view: WallView; corner: JSX.Element }): JSX.Element {
  const words = useWords();
  const time = createMemo(() => words().format.time(props.board.nowMs()));
  const wrong = createMemo(() =>
    props.view.isStale() ? staleWords(words(), props.board) : problemWords(words(), props.board),
  );
  /** What changed; after closing, the tools that no one has confirmed off, until someone does. */
  const news = createMemo(() => {
    const { unconfirmed } = props.view.tools();
    return unconfirmed === undefined
      ? props.view.change()
      : { head: words().wall.tools.unconfirmed, body: unconfirmed };
  });
  return (
    <header class="top" data-news={news() !== undefined}>
      <time class="clock">{time()}</time>
      <Show
        when={wrong()}
        fallback={
          <>
            <div class="air">
              <Show when={props.view.air()}>
                {(air) => (
                  <>
                    <p>
                      <b>{air().air}</b> {air().place}
                      <Show when={air().doubt}>{(doubt) => <b> · {doubt()}</b>}</Show>
                    </p>
                    <p class="soft">{air().meaning}</p>
                  </>
                )}
              </Show>
            </div>
            <div class="change" role="status">
              <Show when={news()}>
                {(news) => (
                  <>
                    <p>
                      <b>{news().head}</b>
                    </p>
                    <p class="soft">{news().body}</p>
                  </>
                )}
              </Show>
            </div>
          </>
        }
      >
        {(text) => (
          <p class="stale-line" role="alert" ref={fitAlarmLine}>
            {text()}
          </p>
        )}
      </Show>
      <Live board={props.board} corner={props.corner} />
    </header>
  );
}

/** That the board is stale, and since when. */
const staleWords = ({ app, wall, format }: Words, board: Board): string =>
  board.connection().is === "outdated"
    ? `${app.outdated} ${wall.top.notLive}`
    : wall.top.stale(format.timeToSecond(board.heardAtMs() ?? 0));

/** Everything that is wrong with the server, what cannot be checked beside what cannot be saved. */
function problemWords({ wall, server }: Words, board: Board): string {
  const trouble = board.saveTrouble();
  const unsaved = trouble === undefined ? [] : [wall.top.cannotSave, server.problems.remedy(trouble)];
  return [...unsaved, ...board.problems().map(server.problems.say)].join(" ");
}

function Live(props: { board: Board; corner: JSX.Element }): JSX.Element {
  const words = useWords();
  const phones = createMemo(() => {
    const { devices } = props.board.presence();
    const others = devices.filter(({ deviceId }) => deviceId !== props.board.me.deviceId);
    return others.filter(({ role }) => role === "lead" || role === "decorator").length;
  });
  const isLive = createMemo(() => props.board.connection().is === "live");
  const state = (): string => {
    const { live, cannotSaveShort, reload, reconnecting } = words().wall.top;
    if (isLive()) return props.board.saveTrouble() === undefined ? live : cannotSaveShort;
    return props.board.connection().is === "outdated" ? reload : reconnecting;
  };
  return (
    <div class="live">
      <p>
        <i class="dot" data-live={isLive() && props.board.saveTrouble() === undefined} aria-hidden="true" />{" "}
        {state()}
        <span class="soft"> · {words().wall.top.phones(phones())}</span>
      </p>
      {props.corner}
    </div>
  );
}
