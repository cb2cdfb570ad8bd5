import { For, Show } from "solid-js";
import { DAY_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createRowWords } from "./row-words.ts";
import type { WorkRow } from "./rows.ts";

/** The plan's acts of a day as sentences, by who and what does them. */
export function PlanList(props: { work: readonly WorkRow[] }) {
  const { board } = usePhone();
  const say = createRowWords();
  const untilMs = (): number => board.nowMs() + DAY_MS;
  const ofToday = (row: WorkRow) => row.blocks.filter(({ fromMs }) => fromMs < untilMs());
  return (
    <For each={props.work}>
      {(row) => (
        <Show when={ofToday(row).length > 0}>
          <h2>{say.name(row)}</h2>
          <ul class="plain-list">
            <For each={ofToday(row)}>
              {(block) => (
                <li>
                  <a href={`#/t/${block.trays[0]}`}>{say.stretch(block)}</a>
                </li>
              )}
            </For>
          </ul>
        </Show>
      )}
    </For>
  );
}
