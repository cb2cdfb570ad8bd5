import { Show } from "solid-js";
import type { JSX } from "solid-js";
import { LABELS_AT_ONCE } from "#shared/kitchen/orders/boxes.ts";
import { type Paper, usePhone } from "#phone/app/phone.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";

/** Labels to a sheet: two beside each other, four below. As in phone/styles/labels.css. */
const LABELS_A_SHEET = 8;

/** Labels as they will lie on paper, and the button that prints them. `none`: what is said where there are none. */
export function LabelSheets(props: {
  count: number;
  none: string;
  /** There are more than are drawn. */
  isCut?: boolean;
  /** Where the codes lead; undefined is not known. Labels without codes leave it out. */
  origin?: (() => string | undefined) | undefined;
  children: JSX.Element;
}) {
  const { print, words } = usePhone();
  const text = () => words().print;
  return (
    <Show when={props.count > 0} fallback={<p class="empty">{props.none}</p>}>
      <PaperChoice />
      <Show when={props.origin}>
        {(origin) => (
          <p class="note not-print">
            <Show when={origin()()} fallback={text().noAddress}>
              {(address) => <>{text().scan(address())}</>}
            </Show>
          </p>
        )}
      </Show>
      <Show when={props.isCut}>
        <p class="note not-print">{text().atMost(LABELS_AT_ONCE)}</p>
      </Show>
      <Show when={print}>
        {(print) => (
          <button type="button" class="act not-print" onClick={() => print()()}>
            {text().print(props.count)}
            <small>{text().sheets(Math.ceil(props.count / LABELS_A_SHEET))}</small>
          </button>
        )}
      </Show>
      <div class="labels">{props.children}</div>
    </Show>
  );
}

const PAPERS: readonly Paper[] = ["a4", "letter"];

/** What all sheets are laid out for. */
export function PaperChoice() {
  const { paper, choosePaper, words } = usePhone();
  return (
    <div class="not-print">
      <Choice
        label={words().print.paper}
        value={paper()}
        options={PAPERS.map((value) => ({ value, name: words().print.papers[value] }))}
        onChange={choosePaper}
      />
    </div>
  );
}
