import { sortedByName } from "#shared/collections.ts";
import { For, Show, createMemo, createSignal, useContext } from "solid-js";
import type { Accessor, JSX } from "solid-js";
import { alike } from "#shared/client/screen/alike.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { BesideContext } from "./page.tsx";

/** The kitchen's things of a kind by name. A lead opens one at a time to change it, or adds one. */
export function EditorList<Item extends { id: string; name: string }>(props: {
  items: Readonly<Record<string, Item>>;
  /** What is said where there are none. */
  none: string;
  /** "Add a place" */
  add: string;
  /** Why none can be added yet. */
  notYet?: string | undefined;
  line: (item: Item) => JSX.Element;
  /** Under it each has a screen of its own, which opens where there is room for that beside the list. */
  path?: string;
  /** The form for one of them as it stands, or for a new one. */
  form: (item: Accessor<Item | undefined>, done: () => void) => JSX.Element;
}) {
  const { isLead } = usePhone();
  const [openId, setOpenId] = createSignal<string>();
  // Rows hang on ids, so that a form that is open keeps what was typed when someone else saves the same thing.
  const ids = createMemo(() => sortedByName(props.items).map(({ id }) => id), [], alike);
  const done = (): void => setOpenId(undefined);
  const isBeside = useContext(BesideContext) !== undefined;
  return (
    <section class="editor">
      <ul class="cards">
        <For each={ids()} fallback={<li class="quiet">{props.none}</li>}>
          {(id) => (
            <li>
              <Show
                when={openId() === id}
                fallback={
                  <Line
                    path={
                      isBeside && props.path !== undefined
                        ? `${props.path}/${encodeURIComponent(id)}`
                        : undefined
                    }
                    onOpen={() => isLead() && setOpenId(id)}
                  >
                    <Show when={props.items[id]}>{(item) => <>{props.line(item())}</>}</Show>
                  </Line>
                }
              >
                {props.form(() => props.items[id], done)}
              </Show>
            </li>
          )}
        </For>
      </ul>
      <Show when={isLead()}>
        <Show when={props.notYet === undefined} fallback={<p class="note">{props.notYet}</p>}>
          <Show
            when={openId() === NEW}
            fallback={
              <button type="button" class="plain wide" onClick={() => setOpenId(NEW)}>
                {props.add}
              </button>
            }
          >
            {props.form(() => undefined, done)}
          </Show>
        </Show>
      </Show>
    </section>
  );
}

/** A line that opens its screen, or its form in the list. */
function Line(props: { path: string | undefined; onOpen: () => void; children: JSX.Element }) {
  const { path } = usePhone();
  return (
    <Show
      when={props.path}
      fallback={
        <button type="button" class="line-card" onClick={() => props.onOpen()}>
          {props.children}
        </button>
      }
    >
      {(to) => (
        <a
          class="line-card"
          href={`#/${to()}`}
          aria-current={path().map(encodeURIComponent).join("/") === to() ? "true" : undefined}
        >
          {props.children}
        </a>
      )}
    </Show>
  );
}

/** No id of a thing is empty. */
const NEW = "";
