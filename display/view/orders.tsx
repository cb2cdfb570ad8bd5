import { For, Show } from "solid-js";
import type { JSX } from "solid-js";
import { useWords } from "#shared/client/screen/language.ts";
import type { OrderCard } from "#shared/kitchen/orders/progress.ts";

/** Orders by need: what is spare or missing, and how far each is. */
export function Orders(props: {
  orders: readonly OrderCard[];
  more: number;
  isStale: boolean;
  practiceSpeed: number | undefined;
}): JSX.Element {
  const words = useWords();
  return (
    <footer class="orders" aria-label={words().wall.order.label}>
      <For each={props.orders}>{(order) => <Card order={order} isStale={props.isStale} />}</For>
      <Show when={props.more > 0}>
        <p class="on-the-line more-orders">{words().wall.more(props.more)}</p>
      </Show>
      <Show when={props.practiceSpeed}>
        {(speed) => <p class="on-the-line practice">{words().wall.order.practice(speed())}</p>}
      </Show>
    </footer>
  );
}

function Card(props: { order: OrderCard; isStale: boolean }): JSX.Element {
  const words = useWords();
  const percent = (share: number): string => `${Math.round(share * 1000) / 10}%`;
  return (
    <article class="order" data-is={props.isStale ? "stale" : props.order.is.replaceAll(" ", "-")}>
      <p class="name">
        <b>{props.order.name}</b>
        <span> · {props.order.cookies}</span>
      </p>
      <p class="facts">
        <span class="pick-up">
          <span class="word">{words().wall.order.pickUp} </span>
          {props.order.pickUp}
        </span>
        <b class="spare">{props.isStale ? "" : props.order.words}</b>
      </p>
      <div
        class="bar"
        role="img"
        aria-label={words().wall.order.progress(percent(props.order.done), percent(props.order.inHand))}
      >
        <i class="done" style={{ width: percent(props.order.done) }} />
        <i class="in-hand" style={{ width: percent(props.order.inHand) }} />
      </div>
    </article>
  );
}
