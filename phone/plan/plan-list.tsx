import { Show } from "solid-js";
import { KeyedFor } from "#shared/client/screen/keyed-for.tsx";
import { DAY_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createRowWords } from "./row-words.ts";
import { type WorkRow, whatStretch } from "./rows.ts";

/** The plan's acts of a day as sentences, by who and what does them. */
export function PlanList(props: { work: readonly WorkRow[] }) {
  const { board } = usePhone();
  const say = createRowWords();
  const untilMs = (): number => board.nowMs() + DAY_MS;
  const ofToday = (row: WorkRow) => row.blocks.filter(({ fromMs }) => fromMs < untilMs());
  return (
    <KeyedFor each={props.work} by={({ key }) => key}>
      {(row) => (
        <Show when={ofToday(row()).length > 0}>
          <h2>{say.name(row())}</h2>
          <ul class="plain-list">
            <KeyedFor each={ofToday(row())} by={whatStretch}>
              {(block) => (
                <li>
                  <a href={`#/t/${block().trays[0]}`}>{say.stretch(block())}</a>
                </li>
              )}
            </KeyedFor>
          </ul>
        </Show>
      )}
    </KeyedFor>
  );
}
