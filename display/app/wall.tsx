import { createEffect, createMemo, Match, onCleanup, Show, Switch } from "solid-js";
import type { Accessor, JSX } from "solid-js";
import { browserTimer, onTap } from "#shared/client/screen/browser.ts";
import { sessionShelf } from "#shared/client/screen/joining.ts";
import { fetchIn, type LanguageChoice, useWords } from "#shared/client/screen/language.ts";
import { type InKitchen, type SessionStore, Shell } from "#shared/client/screen/shell.tsx";
import { createTheme } from "#shared/client/screen/theme.ts";
import { WHOLE_DECIDER } from "#shared/client/screen/whole-decider.ts";
import { createWakeLock } from "#shared/client/screen/wake-lock.ts";
import { openLive } from "#shared/client/sync/socket.ts";
import { openSinceMs } from "#shared/kitchen/model/opening-hours.ts";
import { screenSize, type MeasureEm } from "#display/model/measure.ts";
import { BoardScreen } from "#display/view/board-screen.tsx";
import type { Invite } from "#shared/protocol/invite.ts";
import { Join, type ScreenSession } from "./join.tsx";
import { Menu } from "./menu.tsx";
import { outboxStore } from "./outbox-store.ts";
import { createSound, soundAlerts } from "./sound.ts";

interface WallPorts {
  window: Window & typeof globalThis;
  measure: Accessor<MeasureEm>;
}

/** The whole wall on a browser's own ports. */
export function Wall(props: WallPorts & { language: LanguageChoice; newId: () => string }): JSX.Element {
  const { localStorage } = props.window;
  const goesDark = createWakeLock(props.window, () => true);
  return (
    <Shell
      window={props.window}
      language={props.language}
      shelf={sessionShelf<ScreenSession>(localStorage, "traytide.wall")}
      open={(token) => openLive("", token)}
      decider={() => WHOLE_DECIDER}
      timer={browserTimer(props.window, () => Date.now())}
      store={() => outboxStore(localStorage)}
      newId={props.newId}
      join={(joining) => (
        <Join {...joining} send={fetchIn(props.window.fetch.bind(props.window), props.language)} />
      )}
      kitchen={(inKitchen) => (
        <Kitchen
          {...inKitchen}
          window={props.window}
          measure={props.measure}
          goesDark={goesDark() !== undefined}
        />
      )}
    />
  );
}

function Kitchen(
  props: InKitchen<ScreenSession, SessionStore> & WallPorts & { goesDark: boolean },
): JSX.Element {
  const { board, session } = props;
  const words = useWords();
  const isOpen = createMemo(
    () => !board.known() || openSinceMs(board.kitchen().settings, board.nowMs()) !== undefined,
  );
  const theme = createTheme(props.window, "traytide.wall.theme", () => !isOpen());
  const sound = createSound(() => new props.window.AudioContext(), props.window.localStorage);
  soundAlerts(sound, board);
  createEffect(() => board.sayCanAlert(sound.canSound()));
  onCleanup(onTap(props.window, () => sound.arm()));
  const screen = screenSize(props.window);
  return (
    <Switch
      fallback={
        <main class="join">
          <Show when={board.connection().is === "outdated"} fallback={<p>{words().wall.join.waiting}</p>}>
            <form onSubmit={(event) => event.preventDefault()}>
              <h1>{words().app.outdated}</h1>
              <p>{words().wall.join.reloaded}</p>
              <button type="button" onClick={() => props.window.location.reload()}>
                {words().wall.join.reload}
              </button>
            </form>
          </Show>
        </main>
      }
    >
      <Match when={props.isRefused()}>
        <main class="join">
          <form onSubmit={(event) => event.preventDefault()}>
            <h1>{words().app.notKnown.screen}</h1>
            <button type="button" onClick={() => props.leave()}>
              {words().app.joinAgain}
            </button>
          </form>
        </main>
      </Match>
      <Match when={board.connection().is === "waiting"}>
        <main class="join" role="status">
          <form onSubmit={(event) => event.preventDefault()}>
            <h1>{words().app.waiting.title}</h1>
            <p>{words().app.waiting.text(session.name, "screen")}</p>
            <button type="button" onClick={() => props.leave()}>
              {words().app.joinAgain}
            </button>
          </form>
        </main>
      </Match>
      <Match when={board.known()}>
        <BoardScreen
          board={board}
          screen={screen}
          measure={props.measure}
          invite={() => askInvite(props.window.fetch.bind(props.window), session.token)}
          isBench={session.as === "bench"}
          timer={props.timer}
          corner={(layout) => (
            <Menu
              sound={sound}
              theme={theme}
              layout={layout()}
              wall={board.kitchen().settings.wall}
              goesDark={props.goesDark}
              onLeave={() => props.leave()}
            />
          )}
        />
      </Match>
    </Switch>
  );
}

/** Never rejects. */
async function askInvite(send: typeof fetch, token: string): Promise<Invite | undefined> {
  try {
    const response = await send("/api/invite", { headers: { authorization: `Bearer ${token}` } });
    return response.ok ? ((await response.json()) as Invite) : undefined;
  } catch {
    return undefined;
  }
}
