import { For, Show, createMemo } from "solid-js";
import { orderStrip } from "#shared/kitchen/orders/progress.ts";
import type { OrderCard } from "#shared/kitchen/orders/progress.ts";
import { cookies } from "#shared/words/wording.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { sameList } from "#phone/ui/same-list.ts";

/** Every order, the tightest first. */
export function Orders() {
  const { board, isLead } = usePhone();
  const orders = createMemo(() => orderStrip(board.kitchen(), board.forecasts(), board.nowMs()));
  // Rows hang on ids, so that a second's new numbers are written into the rows that are there.
  const ids = createMemo(() => orders().map((order) => order.key), [], { equals: sameList });
  return (
    <main>
      <h1>Orders</h1>
      <a class="plain wide" href="#/icing">
        Icing to mix
      </a>
      <Show when={ids().length > 0} fallback={<p class="empty">No orders yet.</p>}>
        <ul class="cards">
          <For each={ids()}>
            {(id) => (
              <Show when={orders().find((order) => order.key === id)}>
                {(order) => <OrderLine order={order()} />}
              </Show>
            )}
          </For>
        </ul>
      </Show>
      <Show when={isLead()}>
        <a class="act" href="#/orders/new">
          Add an order
        </a>
      </Show>
      <nav class="choices" aria-label="What orders are made of">
        <a href="#/designs">Designs</a>
        <a href="#/icings">Icings</a>
      </nav>
    </main>
  );
}

function OrderLine(props: { order: OrderCard }) {
  return (
    <li>
      <a class="order-card" data-is={props.order.is} href={`#/orders/${props.order.key}`}>
        <span class="order-top">
          <strong>{props.order.name}</strong>
          <strong class="order-spare">{props.order.words}</strong>
        </span>
        <span>
          {cookies(props.order.cookies)} · pick-up {props.order.pickUp}
        </span>
        <span class="order-bar" aria-hidden="true">
          <span style={{ width: `${props.order.done * 100}%` }} data-part="done" />
          <span style={{ width: `${props.order.inHand * 100}%` }} data-part="in-hand" />
        </span>
        <span class="visually-hidden">
          {Math.round(props.order.done * 100)} % done, {Math.round(props.order.inHand * 100)} % in hand
        </span>
      </a>
    </li>
  );
}
