import { createMemo, Show } from "solid-js";
import type { JSX } from "solid-js";
import { useWords } from "#shared/client/screen/language.ts";
import type { Board } from "#shared/client/screen/board.ts";
import type { Words } from "#shared/words/words.ts";
import { fitAlarmLine } from "./fit.ts";
import type { WallView } from "#display/model/wall-view.ts";

/** Clock, the air and what it means, what changed, and the connection. */
export function TopBar(props: {
  board: Board;
  view: WallView;
  isStale: boolean;
  corner: JSX.Element;
}): JSX.Element {
  const words = useWords();
  const time = createMemo(() => words().format.time(props.board.nowMs()));
  /** What changed; after closing, the tools that no one has confirmed off, until someone does. */
  const news = createMemo((): News | undefined => {
    const { unconfirmed } = props.view.tools();
    return unconfirmed === undefined
      ? props.view.change()
      : { head: words().wall.tools.unconfirmed, body: unconfirmed };
  });
  return (
    <header class="top" ref={fitAlarmLine} data-news={news() !== undefined}>
      <time class="clock">{time()}</time>
      <Show when={!props.isStale} fallback={<StaleLine board={props.board} />}>
        <Show
          when={wrong(words(), props.board)}
          fallback={
            <>
              <Air view={props.view} />
              <Change news={news()} />
            </>
          }
        >
          {(text) => (
            <p class="stale-line" role="alert">
              {text()}
            </p>
          )}
        </Show>
      </Show>
      <Live board={props.board} corner={props.corner} />
    </header>
  );
}

/** The board says that it is stale, and since when. */
function StaleLine(props: { board: Board }): JSX.Element {
  const words = useWords();
  const since = createMemo(() => words().format.timeToSecond(props.board.heardAtMs() ?? 0));
  return (
    <p class="stale-line" role="alert">
      <Show when={props.board.connection().is === "outdated"} fallback={words().wall.top.stale(since())}>
        {words().app.outdated} {words().wall.top.notLive}
      </Show>
    </p>
  );
}

/** Everything that is wrong with the server, what cannot be checked beside what cannot be saved. */
const wrong = ({ wall, server }: Words, board: Board): string =>
  [
    ...(board.cannotSave() ? [wall.top.cannotSave, server.problems.remedy(board.saveTrouble())] : []),
    ...board.problems().map(server.problems.say),
  ].join(" ");

function Air(props: { view: WallView }): JSX.Element {
  return (
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
  );
}

interface News {
  head: string;
  body: string;
}

function Change(props: { news: News | undefined }): JSX.Element {
  return (
    <div class="change" role="status">
      <Show when={props.news}>
        {(change) => (
          <>
            <p>
              <b>{change().head}</b>
            </p>
            <p class="soft">{change().body}</p>
          </>
        )}
      </Show>
    </div>
  );
}

function Live(props: { board: Board; corner: JSX.Element }): JSX.Element {
  const words = useWords();
  const phones = createMemo(
    () =>
      props.board
        .presence()
        .devices.filter(
          ({ deviceId, role }) =>
            deviceId !== props.board.me.deviceId && (role === "lead" || role === "decorator"),
        ).length,
  );
  const isLive = createMemo(() => props.board.connection().is === "live");
  const state = (): string => {
    const { live, cannotSaveShort, reload, reconnecting } = words().wall.top;
    if (isLive()) return props.board.cannotSave() ? cannotSaveShort : live;
    return props.board.connection().is === "outdated" ? reload : reconnecting;
  };
  return (
    <div class="live">
      <p>
        <i class="dot" data-live={isLive() && !props.board.cannotSave()} aria-hidden="true" /> {state()}
        <span class="soft"> · {words().wall.top.phones(phones())}</span>
      </p>
      {props.corner}
    </div>
  );
}
