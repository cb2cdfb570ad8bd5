import { Match, Switch, createEffect, createSignal, on, onCleanup } from "solid-js";
import { nanoid } from "nanoid";
import {
  createWords,
  LanguageContext,
  type LanguageChoice,
  placeOfBrowser,
  WordsContext,
} from "#shared/client/screen/language.ts";
import type { Held } from "#shared/client/sync/link.ts";
import { browserTimer, onWake } from "#shared/client/screen/browser.ts";
import { reloadOnce } from "#shared/client/screen/reload-once.ts";
import type { OpenSocket } from "#shared/client/sync/socket.ts";
import { createBoard } from "#shared/client/screen/board.ts";
import { every } from "#shared/client/sync/timer.ts";
import { createAlarm } from "#phone/alerts/alarm.ts";
import type { Alarm } from "#phone/alerts/alarm.ts";
import { App } from "./app.tsx";
import { askServer } from "#phone/ui/ask.ts";
import { onTap } from "./browser.ts";
import { Join } from "./join.tsx";
import { createPath } from "./path.ts";
import { createPhone } from "./phone.tsx";
import { askToJoin, joinCodeIn, type Session, SessionShelf } from "#shared/client/screen/joining.ts";
import { sessionStore } from "./store.ts";
import type { PhoneStore } from "./store.ts";
import { readTheme, applyThemeTo } from "./theme.ts";

/** How often the board is kept for a reload without a connection. */
const KEEP_MS = 15_000;

export interface StartPorts {
  language: LanguageChoice;
  store: PhoneStore;
  /** Opens the live connection with whatever token the session then has. */
  open: (token: () => string) => OpenSocket;
}

/** The whole phone on a browser's own ports: join, then the kitchen. `held` is the board an earlier page kept. */
export function Start(props: StartPorts & { held: Held | undefined }) {
  const { localStorage, location } = window;
  const code = joinCodeIn(location.hash);
  const shelf = new SessionShelf<Session>(localStorage, "traytide.session");
  const [session, setSession] = createSignal(shelf.read());
  const [why, setWhy] = createSignal<string>();
  /** Of the session that the page opened with; one joined later starts with nothing. */
  let held = props.held;
  const alarm = createAlarm({
    openAudio: () => ("AudioContext" in window ? new AudioContext() : undefined),
    vibrate: "vibrate" in navigator ? (pattern) => void navigator.vibrate(pattern) : undefined,
  });
  onTap(window, () => alarm.arm());

  function joined(fresh: Session): void {
    shelf.keep(fresh);
    setWhy(undefined);
    if (joinCodeIn(location.hash) !== "") location.hash = "";
    setSession(fresh);
  }
  function leave(reason: string | undefined): void {
    shelf.forget();
    held = undefined;
    setWhy(reason);
    setSession(undefined);
  }
  const place = placeOfBrowser(navigator);
  return (
    <LanguageContext.Provider value={props.language}>
      <WordsContext.Provider value={createWords(props.language, () => place)}>
        <Switch
          fallback={
            <Join
              code={code}
              name=""
              {...(why() === undefined ? {} : { why: why()! })}
              join={(typedCode, name) => askToJoin(fetch.bind(window), { code: typedCode, name }, "phone")}
              onJoined={joined}
            />
          }
        >
          <Match when={session()} keyed>
            {(session) => <Joined {...props} session={session} held={held} alarm={alarm} onLeave={leave} />}
          </Match>
        </Switch>
      </WordsContext.Provider>
    </LanguageContext.Provider>
  );
}

/** One session: all that it started ends with it. */
function Joined(
  props: StartPorts & {
    session: Session;
    held: Held | undefined;
    alarm: Alarm;
    onLeave: (why: string | undefined) => void;
  },
) {
  const { session } = props;
  const store = sessionStore(props.store);
  const timer = browserTimer(window, () => Date.now());
  const board = createBoard({
    me: session,
    open: props.open(() => session.token),
    timer,
    // iOS lets sockets die in the background: a page that is shown again may have lost its own.
    onWake: (run) => onWake(window, ["pageshow", "online"], run),
    reload: () => reloadOnce(window),
    held: props.held,
    store,
    newId: () => nanoid(),
  });
  onCleanup(() => board.close());
  const leave = (why: string | undefined): void => {
    store.end();
    props.onLeave(why);
  };
  const keep = (): void => {
    const held = board.toKeep();
    // Without storage the board is simply not kept; the outbox says so itself.
    if (held !== undefined) store.keepHeld(held).catch(() => undefined);
  };
  onCleanup(every(timer, KEEP_MS, keep));
  // A page that goes may not live to finish a write: what matters is kept when the connection comes and when it goes.
  createEffect(on(() => board.connection().is, keep));
  window.addEventListener("pagehide", keep);
  onCleanup(() => window.removeEventListener("pagehide", keep));
  const words = createWords(props.language, () => board.kitchen().settings);
  const phone = createPhone({
    board,
    words,
    timer,
    path: createPath(window),
    go: (path) => {
      window.location.hash = `/${path}`;
    },
    newId: () => nanoid(),
    ask: askServer(fetch.bind(window), session.token),
    print: "print" in window ? () => window.print() : undefined,
    alarm: props.alarm,
    theme: readTheme(window.localStorage),
    applyTheme: (choice) => applyThemeTo(window, choice),
    leave: () => leave(undefined),
  });
  return (
    <WordsContext.Provider value={words}>
      <Switch fallback={<App phone={phone} />}>
        <Match when={refusalOf(board.connection())} keyed>
          {(why) => (
            <main class="join">
              <p class="wordmark">Traytide</p>
              <h1>This phone is not in the kitchen</h1>
              <p>{why}</p>
              <button type="button" class="act" onClick={() => window.location.reload()}>
                Try again
              </button>
              <button type="button" class="plain wide" onClick={() => leave(why)}>
                Join again
              </button>
            </main>
          )}
        </Match>
      </Switch>
    </WordsContext.Provider>
  );
}

const refusalOf = (
  connection: ReturnType<ReturnType<typeof createBoard>["connection"]>,
): string | undefined => (connection.is === "refused" ? connection.why : undefined);
