import { For, createMemo } from "solid-js";
import type { BatchState, OrderState } from "#shared/kitchen/model/state.ts";
import { orderBatches } from "#shared/kitchen/orders/order-batches.ts";
import type { NamedBatch } from "#shared/words/en/trace.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { namedBatch } from "#phone/icing/named-batch.ts";

/** Allergen words of an order and its icing, what was wrong with it, and what is not known: never an all-clear. */
export function OrderBatches(props: { order: OrderState }) {
  const { board, words } = usePhone();
  const text = () => words().trace;
  const known = createMemo(() => orderBatches(board.kitchen(), props.order));
  const named = (batch: BatchState): NamedBatch => namedBatch(board.kitchen(), batch);
  return (
    <section class="card order-batches">
      <h2>{text().ofOrder}</h2>
      <For each={known().wrong}>
        {({ batch, trays }) => (
          <p class="batch-wrong">
            <a href={`#/batch/${batch.id}`}>
              <strong>{text().orderWrong(named(batch), trays, batch.wrong?.why ?? "", board.nowMs())}</strong>
            </a>
          </p>
        )}
      </For>
      <p>
        {props.order.allergens === undefined ? text().noOwnWords : text().ownWords(props.order.allergens)}
      </p>
      <For each={known().told}>
        {({ allergens, batches }) => (
          <p>{text().fromBatches(allergens, batches.map(named), board.nowMs())}</p>
        )}
      </For>
      <p class="note">{[...text().unknown(known()), text().noAllClear].join(" ")}</p>
    </section>
  );
}
