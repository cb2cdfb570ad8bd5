import { type Accessor, createMemo, createSignal, type JSX, onCleanup, Show } from "solid-js";
import type { Held } from "#shared/client/sync/link.ts";
import type { OutboxStore } from "#shared/client/sync/outbox.ts";
import type { OpenSocket } from "#shared/client/sync/socket.ts";
import type { Timer } from "#shared/client/sync/timer.ts";
import type { FirstWords } from "#shared/words/words.ts";
import { type Board, createBoard } from "./board.ts";
import { onWake } from "./browser.ts";
import { joinCodeIn, type Session, type SessionShelf } from "./joining.ts";
import {
  createWords,
  LanguageContext,
  type LanguageChoice,
  placeOfBrowser,
  WordsContext,
} from "./language.ts";
import type { Decider } from "./decider.ts";
import { reloadOnce } from "./reload-once.ts";

/** What outlives a reload of one session's page. */
export interface SessionStore extends OutboxStore {
  /** The session is over: nothing of it stays, and nothing that it still has under way is written any more. */
  end(): void;
}

/** What the page that asks for the join code is given. */
export interface Joining<Kept extends Session> {
  /** From the address; empty where it has none. */
  code: string;
  /** Whether the server turned this screen away, which is why it joins again. */
  wasRefused: boolean;
  onJoined(session: Kept): void;
}

/** A screen in its kitchen; all that it starts ends with its session. */
export interface InKitchen<Kept extends Session, Store> {
  session: Kept;
  store: Store;
  board: Board;
  timer: Timer;
  words: Accessor<FirstWords>;
  /** Whether the server knows this screen no longer. */
  isRefused: Accessor<boolean>;
  /** Forgets the kitchen on this screen and asks to join again. */
  leave(): void;
}

/** A screen from its page's start: it joins, then shows the kitchen, until it leaves. */
export function Shell<Kept extends Session, Store extends SessionStore>(props: {
  window: Window & typeof globalThis;
  language: LanguageChoice;
  shelf: SessionShelf<Kept>;
  /** Of the session that the page opens with: the board an earlier page kept. One joined later starts with nothing. */
  held?: Held | undefined;
  open: (token: () => string) => OpenSocket;
  decider: Accessor<Decider>;
  timer: Timer;
  store: () => Store;
  newId: () => string;
  join: (joining: Joining<Kept>) => JSX.Element;
  kitchen: (inKitchen: InKitchen<Kept, Store>) => JSX.Element;
}): JSX.Element {
  const { location, navigator } = props.window;
  const opened = props.shelf.read();
  const [session, setSession] = createSignal(opened);
  const [wasRefused, setRefused] = createSignal(false);
  const code = joinCodeIn(location.hash);
  function joined(fresh: Kept): void {
    props.shelf.keep(fresh);
    setSession(() => fresh);
  }
  function enter(session: Kept): InKitchen<Kept, Store> {
    const store = props.store();
    const board = createBoard({
      me: session,
      open: props.open(() => session.token),
      decider: props.decider,
      timer: props.timer,
      onWake: (run) => onWake(props.window, run),
      reload: () => reloadOnce(props.window),
      held: session === opened ? props.held : undefined,
      store,
      newId: () => props.newId(),
    });
    onCleanup(() => board.close());
    const isRefused = createMemo(() => board.connection().is === "refused");
    return {
      session,
      store,
      board,
      timer: props.timer,
      isRefused,
      words: createWords(props.language, () => board.kitchen().settings),
      leave() {
        setRefused(isRefused());
        props.shelf.forget();
        // The board closes first, and writes nothing after that.
        setSession(undefined);
        store.end();
      },
    };
  }
  const place = placeOfBrowser(navigator);
  return (
    <LanguageContext.Provider value={props.language}>
      <WordsContext.Provider value={createWords(props.language, () => place)}>
        <Show
          when={session()}
          keyed
          fallback={props.join({ code, wasRefused: wasRefused(), onJoined: joined })}
        >
          {(session) => {
            const inKitchen = enter(session);
            return (
              <WordsContext.Provider value={inKitchen.words}>
                {props.kitchen(inKitchen)}
              </WordsContext.Provider>
            );
          }}
        </Show>
      </WordsContext.Provider>
    </LanguageContext.Provider>
  );
}
