import { For, Show, createSignal } from "solid-js";
import type { JSX } from "solid-js";
import {
  ALLERGENS,
  ALLERGENS_CARD,
  BURN_CARD,
  DEFERENCE_SHORT,
  ELECTRICITY_CARD,
  OVERHEATING_CARD,
} from "#shared/heat/cautions.ts";
import type { CautionCard, CautionLine } from "#shared/heat/cautions.ts";
import { Sheet } from "#phone/ui/sheet.tsx";

/** A full card of cautions, with whose word comes first. */
export function Cautions(props: { card: CautionCard }) {
  return (
    <section class="cautions">
      <h2>{props.card.title}</h2>
      <ul>
        <For each={props.card.lines}>{(line) => <li title={line.source}>{line.text}</li>}</For>
      </ul>
      <p class="deference">{props.card.deference}</p>
    </section>
  );
}

/** What an order has to name, folded: it is looked up, not read each time. */
export function Allergens() {
  return (
    <details class="cautions not-print">
      <summary>{ALLERGENS_CARD.title}</summary>
      <ul>
        <For each={ALLERGENS_CARD.lines}>{(line) => <li title={line.source}>{line.text}</li>}</For>
        <For each={Object.values(ALLERGENS)}>
          {({ where, names, source }) => (
            <li title={source}>
              By name in the {where}: {names.join(", ")}.
            </li>
          )}
        </For>
      </ul>
      <p class="deference">{ALLERGENS_CARD.deference}</p>
    </details>
  );
}

/** One line, for who has read the card this shift. */
export function Reminder(props: { line: CautionLine }) {
  return (
    <p class="reminder" title={props.line.source}>
      <strong>{props.line.text}</strong> <span>{DEFERENCE_SHORT}</span>
    </p>
  );
}

const CARDS = [BURN_CARD, OVERHEATING_CARD, ELECTRICITY_CARD];

/** A heat screen's title, with first aid beside it. */
export function HeatTitle(props: { children: JSX.Element }) {
  return (
    <div class="heat-title">
      <h1>{props.children}</h1>
      <FirstAid />
    </div>
  );
}

/** First aid and what else may be wanted in a hurry: part of the page itself, so it opens without a connection. */
export function FirstAid() {
  const [open, setOpen] = createSignal(false);
  return (
    <>
      <button type="button" class="first-aid" onClick={() => setOpen(true)}>
        A burn? First aid
      </button>
      <Show when={open()}>
        <Sheet title="First aid and cautions" onClose={() => setOpen(false)}>
          <For each={CARDS}>{(card) => <Cautions card={card} />}</For>
          <button type="button" class="plain" onClick={() => setOpen(false)}>
            Close
          </button>
        </Sheet>
      </Show>
    </>
  );
}
