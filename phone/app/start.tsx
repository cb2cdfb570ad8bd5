import { Match, Switch, createEffect, createRoot, on, onCleanup } from "solid-js";
import { render } from "solid-js/web";
import { nanoid } from "nanoid";
import { browserTimer, listen, onTap } from "#shared/client/screen/browser.ts";
import { type Session, sessionShelf } from "#shared/client/screen/joining.ts";
import {
  fetchIn,
  type LanguageChoice,
  startLanguage,
  useFirstWords,
} from "#shared/client/screen/language.ts";
import { type InKitchen, Shell } from "#shared/client/screen/shell.tsx";
import { createTheme, type Theme } from "#shared/client/screen/theme.ts";
import type { Held } from "#shared/client/sync/link.ts";
import { openLive, type OpenSocket } from "#shared/client/sync/socket.ts";
import { every } from "#shared/client/sync/timer.ts";
import { type Alarm, createAlarm } from "#phone/alerts/alarm.ts";
import { askServer } from "#phone/ui/ask.ts";
import { storyShelf } from "#phone/story/story-shelf.ts";
import { App } from "./app.tsx";
import { createWide } from "./wide.ts";
import { Join } from "./join.tsx";
import { createPath } from "./path.ts";
import { createPhone } from "./phone.tsx";
import { createPhotos } from "./photos.ts";
import { registerShell } from "./shell.ts";
import { phoneStore, type PhoneStore, type PhoneSessionStore, sessionStore } from "./store.ts";
import { createWhole, type Whole } from "./whole.ts";

/** How often the board is kept for a reload without a connection. */
const KEEP_MS = 15_000;

/** Starts the phone in a page. Rejects where its words cannot be had. */
export async function start(root: Element, isBuilt: boolean): Promise<void> {
  // Before the language is there: no page is shown in another theme first.
  const theme = createRoot(() => createTheme(window, "traytide.theme"));
  registerShell(navigator, isBuilt);
  const store = phoneStore();
  const [language, held] = await Promise.all([
    startLanguage(window, "first"),
    store.held().catch(() => undefined),
  ]);
  render(
    () => (
      <Start
        language={language}
        theme={theme}
        held={held}
        store={store}
        open={(token) => openLive("", token)}
      />
    ),
    root,
  );
}

/** The whole phone on a browser's own ports. */
export function Start(props: {
  language: LanguageChoice;
  theme: Theme;
  store: PhoneStore;
  /** The board that an earlier page kept. */
  held: Held | undefined;
  /** Opens the live connection with whatever token the session then has. */
  open: (token: () => string) => OpenSocket;
}) {
  const alarm = createAlarm({
    openAudio: () => ("AudioContext" in window ? new AudioContext() : undefined),
    vibrate: "vibrate" in navigator ? (pattern) => void navigator.vibrate(pattern) : undefined,
  });
  onCleanup(onTap(window, () => alarm.arm()));
  const send = fetchIn(fetch.bind(window), props.language);
  const whole = createWhole(props.language);
  return (
    <Shell
      window={window}
      language={props.language}
      shelf={sessionShelf<Session>(localStorage, "traytide.session")}
      held={props.held}
      open={props.open}
      decider={whole.decider}
      timer={browserTimer(window, () => Date.now())}
      store={() => sessionStore(props.store)}
      newId={nanoid}
      join={(joining) => <Join {...joining} send={send} />}
      kitchen={(inKitchen) => (
        <Kitchen {...inKitchen} send={send} alarm={alarm} theme={props.theme} whole={whole} />
      )}
    />
  );
}

function Kitchen(
  props: InKitchen<Session, PhoneSessionStore> & {
    send: typeof fetch;
    alarm: Alarm;
    theme: Theme;
    whole: Whole;
  },
) {
  const { board, timer, session, words } = props;
  keepBoard(props);
  const photos = createPhotos(props.send, () => session.token);
  const phone = createPhone({
    board,
    words,
    whole: props.whole,
    timer,
    path: createPath(window),
    go: (path) => {
      window.location.hash = `/${path}`;
    },
    newId: nanoid,
    ask: askServer(props.send, session.token),
    photos,
    print: "print" in window ? () => window.print() : undefined,
    alarm: props.alarm,
    theme: props.theme,
    isWide: createWide(window),
    storyShelf: storyShelf(localStorage, "traytide.story", session.personId),
    leave() {
      photos.clear();
      props.leave();
    },
  });
  return (
    <Switch fallback={<App phone={phone} />}>
      <Match when={props.isRefused()}>
        <NotKnown onLeave={() => props.leave()} />
      </Match>
      <Match when={board.connection().is === "waiting"}>
        <Waiting name={session.name} onLeave={() => props.leave()} />
      </Match>
    </Switch>
  );
}

/** Keeps the board for a reload without a connection. */
function keepBoard({ board, store, timer }: InKitchen<Session, PhoneSessionStore>): void {
  const keep = (): void => {
    const held = board.toKeep();
    // Without storage the board is simply not kept; the outbox says so itself.
    if (held !== undefined) store.keepHeld(held).catch(() => undefined);
  };
  onCleanup(every(timer, KEEP_MS, keep));
  // A page that goes may not live to finish a write: what matters is kept when the connection comes and when it goes.
  createEffect(on(() => board.connection().is, keep));
  onCleanup(listen(window, ["pagehide"], keep));
}

/** Somebody's name was typed: a lead lets this phone in, or turns it away. */
function Waiting(props: { name: string; onLeave: () => void }) {
  const words = useFirstWords();
  return (
    <main class="join" role="status">
      <p class="wordmark">Traytide</p>
      <h1>{words().app.waiting.title}</h1>
      <p>{words().app.waiting.text(props.name, "phone")}</p>
      <p>{words().app.waiting.leadCode}</p>
      <button type="button" class="plain wide" onClick={() => props.onLeave()}>
        {words().app.joinAgain}
      </button>
    </main>
  );
}

/** The server knows this phone no longer. */
function NotKnown(props: { onLeave: () => void }) {
  const words = useFirstWords();
  return (
    <main class="join">
      <p class="wordmark">Traytide</p>
      <h1>{words().app.notKnown.phone}</h1>
      <button type="button" class="act" onClick={() => window.location.reload()}>
        {words().app.tryAgain}
      </button>
      <button type="button" class="plain wide" onClick={() => props.onLeave()}>
        {words().app.joinAgain}
      </button>
    </main>
  );
}
