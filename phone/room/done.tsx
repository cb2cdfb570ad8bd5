import { For, Show, createEffect, createMemo, createSignal, on } from "solid-js";
import { sortedByName } from "#shared/collections.ts";
import type { DoneAnswer, DoneLine } from "#shared/protocol/done.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { askFaultWords } from "#phone/ui/ask.ts";
import { Select } from "#phone/ui/fields.tsx";

/** Who did what, on which device, latest first: read from the server's log, a page at a time. */
export function DoneScreen() {
  const { ask, board, words } = usePhone();
  const text = () => words().devices.done;
  const [by, setBy] = createSignal("");
  const [lines, setLines] = createSignal<readonly DoneLine[]>([]);
  const [before, setBefore] = createSignal<number>();
  const [fault, setFault] = createSignal<string>();
  const [isBusy, setBusy] = createSignal(false);
  /** The newest question: answers to older ones are dropped. */
  let newest: object | undefined;
  const people = createMemo(() =>
    sortedByName(board.kitchen().people).filter(({ role }) => role === "lead" || role === "decorator"),
  );
  async function look(from?: number): Promise<void> {
    const question = {};
    newest = question;
    setBusy(true);
    const query = new URLSearchParams({
      ...(by() !== "" && { by: by() }),
      ...(from !== undefined && { before: String(from) }),
    });
    const answer = await ask<DoneAnswer>(`done?${query.toString()}`);
    if (newest !== question) return;
    setBusy(false);
    setFault(answer.ok ? undefined : askFaultWords(words(), answer.fault));
    if (!answer.ok) return;
    setLines((held) => [...held, ...answer.value.lines]);
    setBefore(answer.value.before);
  }
  createEffect(
    on([by, () => words().format.language], () => {
      setLines([]);
      void look();
    }),
  );
  return (
    <main>
      <h1>{words().app.titles.done}</h1>
      <p class="note">{text().explained}</p>
      <Select
        label={text().whose}
        value={by()}
        options={[
          { value: "", name: text().everyone },
          ...people().map(({ id, name }) => ({ value: String(id), name })),
        ]}
        onChange={setBy}
      />
      <Show when={fault()}>{(fault) => <p role="alert">{fault()}</p>}</Show>
      <ol class="cards" aria-busy={isBusy()}>
        <For each={lines()} fallback={<li class="quiet">{isBusy() ? text().working : text().nothing}</li>}>
          {(line) => (
            <li class="check-line">
              <span class="words">
                <strong>{line.what}</strong>
                <span>
                  {words().format.when(line.atMs, board.nowMs())} · <bdi>{line.who}</bdi>
                  {line.device === undefined ? "" : ` · ${text().on(line.device)}`}
                </span>
              </span>
            </li>
          )}
        </For>
      </ol>
      <Show when={before()}>
        {(before) => (
          <button type="button" class="plain wide" disabled={isBusy()} onClick={() => void look(before())}>
            {text().earlier}
          </button>
        )}
      </Show>
    </main>
  );
}
