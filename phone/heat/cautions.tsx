import { For, Show, createSignal } from "solid-js";
import type { JSX } from "solid-js";
import {
  ALLERGENS,
  CARDS,
  CAUTION_SOURCES,
  type CardId,
  type CautionId,
  houseRulesOf,
} from "#shared/heat/cautions.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** The lines of a card, then the lead's own rules where they belong to it. */
function Lines(props: { lines: readonly CautionId[]; houseRules?: readonly string[] }) {
  const { words } = usePhone();
  return (
    <>
      <For each={props.lines}>
        {(id) => <li title={words().cautions.sources[CAUTION_SOURCES[id]]}>{words().cautions.lines[id]}</li>}
      </For>
      <For each={houseRulesOf(props.houseRules ?? [])}>{(rule) => <li>{rule}</li>}</For>
    </>
  );
}

/** A full card of cautions, with whose word comes first. */
export function Cautions(props: { card: CardId; houseRules?: readonly string[] }) {
  const { words } = usePhone();
  return (
    <section class="cautions">
      <h2>{words().cautions.titles[props.card]}</h2>
      <ul>
        <Lines lines={CARDS[props.card]} {...(props.houseRules && { houseRules: props.houseRules })} />
      </ul>
      <p class="deference">{words().cautions.deference}</p>
    </section>
  );
}

/** What an order has to name, folded: it is looked up, not read each time. */
export function Allergens() {
  const { words } = usePhone();
  return (
    <details class="cautions not-print">
      <summary>{words().cautions.titles.allergens}</summary>
      <ul>
        <Lines lines={CARDS.allergens} />
        <For each={["us", "eu"] as const}>
          {(where) => (
            <li title={words().cautions.sources[ALLERGENS[where].source]}>
              {words().cautions.allergens.byName(where, ALLERGENS[where].names)}
            </li>
          )}
        </For>
      </ul>
      <p class="deference">{words().cautions.deference}</p>
    </details>
  );
}

/** One line, for who has read the card this shift. */
export function Reminder(props: { line: CautionId }) {
  const { words } = usePhone();
  return (
    <p class="reminder" title={words().cautions.sources[CAUTION_SOURCES[props.line]]}>
      <strong>{words().cautions.lines[props.line]}</strong> <span>{words().cautions.deferenceShort}</span>
    </p>
  );
}

const HURRIED: readonly CardId[] = ["burn", "overheating", "electricity"];

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
  const { words } = usePhone();
  const [open, setOpen] = createSignal(false);
  return (
    <>
      <button type="button" class="first-aid" onClick={() => setOpen(true)}>
        {words().cautions.firstAid}
      </button>
      <Show when={open()}>
        <Sheet title={words().cautions.firstAidTitle} onClose={() => setOpen(false)}>
          <For each={HURRIED}>{(card) => <Cautions card={card} />}</For>
          <button type="button" class="plain" onClick={() => setOpen(false)}>
            {words().forms.close}
          </button>
        </Sheet>
      </Show>
    </>
  );
}
