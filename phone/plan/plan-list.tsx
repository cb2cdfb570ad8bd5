import { Key } from "@solid-primitives/keyed";
import { Show } from "solid-js";
import { DAY_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createRowWords } from "./row-words.ts";
import type { Block, WorkRow } from "./rows.ts";

/** The plan's acts of a day as sentences, by who and what does them. */
export function PlanList(props: { work: readonly WorkRow[] }) {
  const { board } = usePhone();
  const say = createRowWords();
  const untilMs = (): number => board.nowMs() + DAY_MS;
  const ofToday = (row: WorkRow) => row.blocks.filter(({ fromMs }) => fromMs < untilMs());
  return (
    <Key each={props.work} by="key">
      {(row) => (
        <Show when={ofToday(row()).length > 0}>
          <h2>{say.name(row())}</h2>
          <ul class="plain-list">
            <Key each={keyed(ofToday(row()))} by="key">
              {(one) => (
                <li>
                  <a href={`#/t/${one().block.trays[0]}`}>{say.stretch(one().block)}</a>
                </li>
              )}
            </Key>
          </ul>
        </Show>
      )}
    </Key>
  );
}

/** Each act with what it stays the same by while the plan moves it. */
function keyed(blocks: readonly Block[]): { key: string; block: Block }[] {
  const counts = new Map<string, number>();
  return blocks.map((block) => {
    const what = `${block.kind} ${block.trays[0]}`;
    const nth = (counts.get(what) ?? 0) + 1;
    counts.set(what, nth);
    return { key: `${what} ${nth}`, block };
  });
}
