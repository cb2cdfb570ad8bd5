import { type Accessor, type Component, createEffect, createSignal, on, onCleanup, Show } from "solid-js";
import { reloadForCode } from "#shared/client/screen/reload-once.ts";
import { useFirst } from "./phone.tsx";

/** What is loaded later: in a quiet moment, so that no tap waits and a lost connection takes no page away. */
const loads: (() => Promise<void>)[] = [];

/** Loads all that was kept for later, one after the other; rejects at the first that cannot be had. */
export async function loadAllLater(): Promise<void> {
  for (const load of loads) await load();
}

/** Something whose code is loaded later: undefined until it is here. */
export function laterThing<Thing extends (...given: never[]) => unknown>(
  get: () => Promise<Thing>,
): { thing: Accessor<Thing | undefined>; load: () => Promise<void> } {
  const [thing, setThing] = createSignal<Thing>();
  async function load(): Promise<void> {
    if (thing() !== undefined) return;
    const loaded = await get();
    setThing(() => loaded);
  }
  loads.push(load);
  return { thing, load };
}

/** How a component stands for its code: a screen and a sheet ask for it at once, a part waits for the quiet moment. */
type Stands = "screen" | "sheet" | "part";

/** A component whose code is loaded later. */
export function later<Props extends object>(
  load: () => Promise<Component<Props>>,
  stands: Stands = "screen",
): Component<Props> {
  const view = laterThing(load);
  return (props) => {
    const { whole } = useFirst();
    const loadAll = async (): Promise<void> => void (await Promise.all([whole.load(), view.load()]));
    return (
      <Show when={whole.isHere() && view.thing()} keyed fallback={<Coming stands={stands} load={loadAll} />}>
        {(View) => <View {...props} />}
      </Show>
    );
  };
}

/** A quick answer comes before anybody has read a line about it. */
const UNSAID_MS = 150;

/** Loads what stands here, and says so where that takes long or cannot be; tried again when the kitchen answers again. */
function Coming(props: { stands: Stands; load: () => Promise<void> }) {
  const { board, timer, words } = useFirst();
  const [is, setIs] = createSignal<"quick" | "opening" | "failed">("quick");
  if (props.stands === "part") return undefined;
  onCleanup(timer.after(UNSAID_MS, () => setIs((was) => (was === "quick" ? "opening" : was))));
  const isLive = (): boolean => board.connection().is === "live";
  createEffect(
    on(isLive, (isLive) => {
      props.load().catch(() => {
        // The server answers, but has this page's code no more: it is of another version by now.
        if (!isLive || !reloadForCode(window, import.meta.url)) setIs("failed");
      });
    }),
  );
  const text = () => words().app.later;
  const Line = () => (
    <Show when={is() === "failed"} fallback={<p role="status">{text().opening}</p>}>
      <p role="alert">{isLive() ? text().notLoaded : text().notLoadedYet}</p>
      <Show when={isLive()}>
        <button type="button" class="plain" onClick={() => window.location.reload()}>
          {words().app.reload}
        </button>
      </Show>
    </Show>
  );
  return (
    <Show when={is() !== "quick"}>
      <Show when={props.stands === "screen"} fallback={<Line />}>
        <main class="empty">
          <Line />
        </main>
      </Show>
    </Show>
  );
}
