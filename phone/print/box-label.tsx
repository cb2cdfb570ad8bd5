import { Show } from "solid-js";
import type { Order } from "#shared/kitchen/model/vocabulary.ts";
import { bestBeforeMs, type Box } from "#shared/kitchen/orders/boxes.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** More letters of the kitchen's own are set in small print. */
const DENSE_LETTERS = 180;

/** A box's label: which of how many, and the kitchen's own words and dates. `packedOnMs`: for one that is not full yet. */
export function BoxLabel(props: { order: Order; box: Box; packedOnMs: number | undefined }) {
  const { board, words } = usePhone();
  const text = () => words().print;
  const settings = () => board.kitchen().settings;
  /** Of a box filled long ago it is not known: a line to write on. */
  const packedMs = () => (props.box.isFull ? props.box.packedAtMs : props.packedOnMs);
  const bestBefore = () => {
    const atMs = packedMs();
    return atMs === undefined ? undefined : bestBeforeMs(settings(), atMs);
  };
  const isDense = (): boolean =>
    (settings().labelText ?? "").length + (props.order.allergens ?? "").length > DENSE_LETTERS;
  const hasRule = (): boolean => (settings().bestBeforeDays ?? undefined) !== undefined;
  return (
    <article class="label box-label" data-dense={isDense()} aria-label={text().box(props.box)}>
      <strong class="label-name">{props.order.name}</strong>
      <strong>{text().box(props.box)}</strong>
      <Show when={settings().labelText}>{(own) => <span class="label-text">{own()}</span>}</Show>
      <Show when={props.order.allergens}>
        {(allergens) => <span class="label-text">{text().allergens(allergens())}</span>}
      </Show>
      <span>{text().packed(packedMs())}</span>
      <Show when={hasRule()}>
        <span>{text().bestBefore(bestBefore())}</span>
      </Show>
      <small>{text().ownText}</small>
    </article>
  );
}
