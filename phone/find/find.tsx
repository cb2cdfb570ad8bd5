import { For, type JSX, Show, createMemo, createSignal, createUniqueId } from "solid-js";
import { findIn } from "#shared/kitchen/model/find.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { alongItems } from "#phone/ui/arrow-keys.ts";

/** What can be opened of what was found. */
interface Hit {
  path: string;
  name: string;
  hex?: string;
}

const ITEMS = "input, .found a";

/** One field for trays, orders, designs and icings: what is found stands under it by kind, and Enter opens the first. */
export function Find() {
  const { board, words, go } = usePhone();
  const [text, setText] = createSignal("");
  const inputId = createUniqueId();
  let form: HTMLFormElement | undefined;
  const found = createMemo(() => findIn(board.kitchen(), text()));
  const groups = createMemo(() => {
    const { trays, orders, designs, icings } = found();
    const { titles } = words().app;
    const named = (under: string) => (item: { id: string; name: string; hex?: string }) => ({
      ...(item.hex !== undefined && { hex: item.hex }),
      path: `${under}/${encodeURIComponent(item.id)}`,
      name: item.name,
    });
    const numbered = trays.map(({ number, orderId }) => ({
      path: `t/${number}`,
      name: words().desk.foundTray(number, board.kitchen().orders[orderId]?.name),
    }));
    return [
      { title: titles.trays, hits: numbered },
      { title: titles.orders, hits: orders.map(named("orders")) },
      { title: titles.designs, hits: designs.map(named("designs")) },
      { title: titles.icings, hits: icings.map(named("icings")) },
    ].filter(({ hits }) => hits.length > 0);
  });
  const clear = (): void => void setText("");
  function open(hit: Hit | undefined): void {
    if (hit === undefined) return;
    clear();
    go(hit.path);
  }
  return (
    <form
      class="find"
      role="search"
      ref={form}
      onSubmit={(event) => {
        event.preventDefault();
        open(groups()[0]?.hits[0]);
      }}
      onKeyDown={(event) => {
        if (event.key === "Escape") clear();
        else alongItems(event, form, ITEMS);
      }}
    >
      <label class="visually-hidden" for={inputId}>
        {words().desk.findLabel}
      </label>
      <input
        id={inputId}
        type="search"
        autocomplete="off"
        placeholder={words().desk.find}
        maxLength={60}
        value={text()}
        onInput={(event) => setText(event.currentTarget.value)}
      />
      <Show when={text().trim() !== ""}>
        <div class="found" aria-live="polite">
          <For each={groups()} fallback={<p class="quiet">{words().desk.nothingFound(text().trim())}</p>}>
            {(group) => <Group {...group} onOpen={clear} />}
          </For>
        </div>
      </Show>
    </form>
  );
}

function Group(props: { title: string; hits: readonly Hit[]; onOpen: () => void }): JSX.Element {
  return (
    <section aria-label={props.title}>
      <h2>{props.title}</h2>
      <ul>
        <For each={props.hits}>
          {(hit) => (
            <li>
              <a href={`#/${hit.path}`} onClick={() => props.onOpen()}>
                <Show when={hit.hex}>
                  {(hex) => <span class="swatch" style={{ background: hex() }} aria-hidden="true" />}
                </Show>
                {hit.name}
              </a>
            </li>
          )}
        </For>
      </ul>
    </section>
  );
}
