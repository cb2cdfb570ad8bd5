import { createEffect, createMemo, createSignal, Match, onCleanup, Show, Switch } from "solid-js";
import type { Accessor, JSX } from "solid-js";
import {
  createWords,
  LanguageContext,
  type LanguageChoice,
  placeOfBrowser,
  WordsContext,
} from "#shared/client/screen/language.ts";
import { createBoard } from "#shared/client/screen/board.ts";
import { browserTimer, onWake } from "#shared/client/screen/browser.ts";
import { reloadOnce } from "#shared/client/screen/reload-once.ts";
import { outdatedWhy } from "#shared/client/sync/link.ts";
import { openLive } from "#shared/client/sync/socket.ts";
import { openSinceMs } from "#shared/kitchen/model/opening-hours.ts";
import { BoardScreen } from "#display/view/board-screen.tsx";
import { Join } from "./join.tsx";
import { screenSize, type MeasureEm } from "#display/model/lay.ts";
import { Menu } from "./menu.tsx";
import { outboxStore } from "./outbox-store.ts";
import { joinCodeIn } from "#shared/client/screen/joining.ts";
import { sessionShelf, type ScreenSession } from "./session.ts";
import { createSound, soundAlerts } from "./sound.ts";
import { applyThemeTo } from "./theme.ts";

export interface WallPorts {
  language: LanguageChoice;
  window: Window & typeof globalThis;
  newId(): string;
  measure: Accessor<MeasureEm>;
}

const CODE = "traytide.wall.code";

/** Joins, then shows the board; back to joining when the server turns this screen away. */
export function Wall(props: WallPorts): JSX.Element {
  const { localStorage, location } = props.window;
  const shelf = sessionShelf(localStorage);
  const [session, setSession] = createSignal(shelf.read());
  const [why, setWhy] = createSignal<string>();
  const code = joinCodeIn(location.hash);
  function leave(because?: string): void {
    setWhy(because);
    // The board closes first, and writes nothing after that: then nothing of its session stays.
    setSession(undefined);
    shelf.forget();
    localStorage.removeItem(CODE);
    outboxStore(localStorage).clear();
  }
  const place = placeOfBrowser(props.window.navigator);
  return (
    <LanguageContext.Provider value={props.language}>
      <WordsContext.Provider value={createWords(props.language, () => place)}>
        <Show
          when={session()}
          keyed
          fallback={
            <Join
              code={code}
              why={why()}
              send={(...request) => props.window.fetch(...request)}
              onJoined={(joined, withCode) => {
                shelf.keep(joined);
                localStorage.setItem(CODE, withCode);
                setSession(joined);
              }}
            />
          }
        >
          {(joined) => (
            <Joined {...props} session={joined} code={localStorage.getItem(CODE) ?? ""} onLeave={leave} />
          )}
        </Show>
      </WordsContext.Provider>
    </LanguageContext.Provider>
  );
}

function Joined(
  props: WallPorts & { session: ScreenSession; code: string; onLeave(why?: string): void },
): JSX.Element {
  const timer = browserTimer(props.window, () => Date.now());
  const board = createBoard({
    me: props.session,
    open: openLive("", () => props.session.token),
    timer,
    onWake: (run) => onWake(props.window, ["online"], run),
    reload: () => reloadOnce(props.window),
    store: outboxStore(props.window.localStorage),
    newId: () => props.newId(),
  });
  onCleanup(() => board.close());
  const screen = screenSize(props.window);
  const theme = applyThemeTo(
    props.window,
    createMemo(() => !board.known() || openSinceMs(board.kitchen().settings, board.nowMs()) !== undefined),
  );
  const sound = createSound(() => new props.window.AudioContext(), props.window.localStorage);
  soundAlerts(sound, board);
  createEffect(() => board.sayCanAlert(sound.isArmed()));
  const arm = (): void => sound.arm();
  // At the end of a touch: before that browsers let no sound in for it.
  for (const type of ["click", "touchend", "keydown"]) {
    props.window.addEventListener(type, arm);
    onCleanup(() => props.window.removeEventListener(type, arm));
  }
  const refusedWhy = createMemo(() => {
    const connection = board.connection();
    return connection.is === "refused" ? connection.why : undefined;
  });
  return (
    <WordsContext.Provider value={createWords(props.language, () => board.kitchen().settings)}>
      <Switch
        fallback={
          <main class="join">
            <Show when={outdatedWhy(board.connection())} fallback={<p>Waiting for the kitchen's server…</p>}>
              {(why) => (
                <form onSubmit={(event) => event.preventDefault()}>
                  <h1>{why()}</h1>
                  <p>It has reloaded itself once, and that did not help.</p>
                  <button type="button" onClick={() => props.window.location.reload()}>
                    Reload
                  </button>
                </form>
              )}
            </Show>
          </main>
        }
      >
        <Match when={refusedWhy()}>
          {(why) => (
            <main class="join">
              <form onSubmit={(event) => event.preventDefault()}>
                <h1>The kitchen no longer knows this screen</h1>
                <p>{why()}</p>
                <button type="button" onClick={() => props.onLeave(why())}>
                  Join again
                </button>
              </form>
            </main>
          )}
        </Match>
        <Match when={board.known()}>
          <BoardScreen
            board={board}
            screen={screen}
            measure={props.measure}
            origin={props.window.location.origin}
            code={props.code}
            isBench={props.session.as === "bench"}
            timer={timer}
            corner={(layout) => (
              <Menu
                sound={sound}
                theme={theme}
                layout={layout()}
                wall={board.kitchen().settings.wall}
                onLeave={() => props.onLeave()}
              />
            )}
          />
        </Match>
      </Switch>
    </WordsContext.Provider>
  );
}
