import { For, Show, createMemo } from "solid-js";
import { packedOver } from "#shared/kitchen/model/order-cookies.ts";
import type { OrderState } from "#shared/kitchen/model/state.ts";
import { type Gift, giftsOf, packingOf } from "#shared/kitchen/orders/packing.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** What of an order is packed against its promise, in boxes, and who could have what is over. */
export function OrderPacking(props: { order: OrderState }) {
  const { board, words } = usePhone();
  const packing = createMemo(() => packingOf(board.kitchen(), props.order));
  const gifts = createMemo(() => giftsOf(board.kitchen(), props.order));
  const text = () => words().packing;
  const isBegun = (): boolean => packing().packed > 0 || packing().lost > 0 || packing().seconds > 0;
  return (
    <Show when={isBegun() || packing().boxes !== undefined}>
      <section class="card order-packing">
        <h2>{text().title}</h2>
        <strong>{text().packed(packing().packed, packing().promised)}</strong>
        <Show when={packing().boxes}>{(boxes) => <span>{text().boxes(boxes())}</span>}</Show>
        <Show when={packing().seconds > 0}>
          <span>{words().trays.secondsAre(packing().seconds)}</span>
        </Show>
        <Show when={packing().lost > 0}>
          <span>{text().lostAre(packing().lost, packing().lostBy)}</span>
        </Show>
        <For each={gifts()}>{(gift) => <GiftButton from={props.order} gift={gift} />}</For>
      </section>
    </Show>
  );
}

/** Gives what is over to another order: one tap, with undo. */
function GiftButton(props: { from: OrderState; gift: Gift }) {
  const { board, words, act } = usePhone();
  const text = () => words().packing.over;
  const design = (): string => board.kitchen().designs[props.gift.designId]?.name ?? "";
  const give = (): void => {
    const { to, designId, count } = props.gift;
    void act(
      { type: "give-cookies", fromId: props.from.id, toId: to.id, designId, count },
      text().given(count, design(), to.name),
    );
  };
  return (
    <button type="button" class="plain wide" onClick={give}>
      {text().give(props.gift.count, props.gift.to.name)}
      <small>
        {text().title(packedOver(board.kitchen(), props.from, props.gift.designId), design())} ·{" "}
        {props.gift.lacks > 0 ? text().lacks(props.gift.lacks) : text().stillToPack(props.gift.toPack)}
      </small>
    </button>
  );
}
