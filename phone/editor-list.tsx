import { sortedByName } from "#shared/kitchen/by-name.ts";
import { For, Show, createMemo, createSignal } from "solid-js";
import type { JSX } from "solid-js";
import { usePhone } from "./phone.tsx";

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
  /** The form for one of them, or for a new one. */
  form: (item: Item | undefined, done: () => void) => JSX.Element;
}) {
  const { isLead } = usePhone();
  const [openId, setOpenId] = createSignal<string>();
  const sorted = createMemo(() => sortedByName(props.items));
  const done = (): void => setOpenId(undefined);
  return (
    <section class="editor">
      <ul class="cards">
        <For each={sorted()} fallback={<li class="quiet">{props.none}</li>}>
          {(item) => (
            <li>
              <Show
                when={openId() === item.id}
                fallback={
                  <button type="button" class="line-card" onClick={() => isLead() && setOpenId(item.id)}>
                    {props.line(item)}
                  </button>
                }
              >
                {props.form(item, done)}
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
            {props.form(undefined, done)}
          </Show>
        </Show>
      </Show>
    </section>
  );
}

/** No id of a thing is empty. */
const NEW = "";
