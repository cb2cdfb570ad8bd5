import { sortedByName } from "#shared/collections.ts";
import { For, Show, createMemo, createSignal } from "solid-js";
import type { Accessor, JSX } from "solid-js";
import { usePhone } from "#phone/app/phone.tsx";
import { sameList } from "./same-list.ts";

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
  /** The form for one of them as it stands, or for a new one. */
  form: (item: Accessor<Item | undefined>, done: () => void) => JSX.Element;
}) {
  const { isLead } = usePhone();
  const [openId, setOpenId] = createSignal<string>();
  // Rows hang on ids, so that a form that is open keeps what was typed when someone else saves the same thing.
  const ids = createMemo(() => sortedByName(props.items).map(({ id }) => id), [], { equals: sameList });
  const done = (): void => setOpenId(undefined);
  return (
    <section class="editor">
      <ul class="cards">
        <For each={ids()} fallback={<li class="quiet">{props.none}</li>}>
          {(id) => (
            <li>
              <Show
                when={openId() === id}
                fallback={
                  <button type="button" class="line-card" onClick={() => isLead() && setOpenId(id)}>
                    <Show when={props.items[id]}>{(item) => <>{props.line(item())}</>}</Show>
                  </button>
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

/** No id of a thing is empty. */
const NEW = "";
