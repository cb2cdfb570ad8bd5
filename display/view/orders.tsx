import { For, Show } from "solid-js";
import type { JSX } from "solid-js";
import type { OrderCard } from "#shared/kitchen/orders/progress.ts";

/** Orders by need: what is spare or missing, and how far each is. */
export function Orders(props: {
  orders: readonly OrderCard[];
  more: number;
  isStale: boolean;
  practiceSpeed: number | undefined;
}): JSX.Element {
  return (
    <footer class="orders" aria-label="Orders">
      <For each={props.orders}>{(order) => <Card order={order} isStale={props.isStale} />}</For>
      <Show when={props.more > 0}>
        <p class="on-the-line more-orders">and {props.more} more</p>
      </Show>
      <Show when={props.practiceSpeed}>
        {(speed) => <p class="on-the-line practice">practice kitchen · {speed()}×</p>}
      </Show>
    </footer>
  );
}

function Card(props: { order: OrderCard; isStale: boolean }): JSX.Element {
  const percent = (share: number): string => `${Math.round(share * 1000) / 10}%`;
  return (
    <article class="order" data-is={props.isStale ? "stale" : props.order.is.replaceAll(" ", "-")}>
      <p class="name">
        <b>{props.order.name}</b>
        <span> · {props.order.cookies}</span>
      </p>
      <p class="facts">
        <span class="pick-up">
          <span class="word">pick-up </span>
          {props.order.pickUp}
        </span>
        <b class="spare">{props.isStale ? "" : props.order.words}</b>
      </p>
      <div
        class="bar"
        role="img"
        aria-label={`${percent(props.order.done)} done, ${percent(props.order.inHand)} in hand`}
      >
        <i class="done" style={{ width: percent(props.order.done) }} />
        <i class="in-hand" style={{ width: percent(props.order.inHand) }} />
      </div>
    </article>
  );
}
