import { createMemo, For, Show } from "solid-js";
import type { Accessor, JSX } from "solid-js";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { finishedCookie } from "#shared/kitchen/tray/cookie-picture.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { useWords } from "#shared/client/screen/language.ts";
import type { OrderCard } from "#shared/kitchen/orders/progress.ts";

/** Orders by need: what is spare or missing, and how far each is. `nowMs` is the wall's time. */
export function Orders(props: {
  orders: readonly OrderCard[];
  kitchen: Accessor<Kitchen>;
  nowMs: Accessor<number>;
  more: number;
  isStale: boolean;
  practiceSpeed: number | undefined;
}): JSX.Element {
  const words = useWords();
  return (
    <footer class="orders" aria-label={words().app.titles.orders}>
      <For each={props.orders}>
        {(order) => (
          <Card order={order} kitchen={props.kitchen} nowMs={props.nowMs} isStale={props.isStale} />
        )}
      </For>
      <Show when={props.more > 0}>
        <p class="on-the-line more-orders">{words().wall.more(props.more)}</p>
      </Show>
      <Show when={props.practiceSpeed}>
        {(speed) => <p class="on-the-line practice">{words().wall.practice(speed())}</p>}
      </Show>
    </footer>
  );
}

/** A chance worth a word: neither nearly sure nor nearly none, which its time says by itself. */
const isDoubtful = (chance: number | undefined): boolean =>
  chance !== undefined && chance >= 0.05 && chance < 0.95;

/** As many designs as a card has room for. */
const MOST_LOOKS = 2;

function Card(props: {
  order: OrderCard;
  kitchen: Accessor<Kitchen>;
  nowMs: Accessor<number>;
  isStale: boolean;
}): JSX.Element {
  const words = useWords();
  /** What it is made of: its designs, finished. */
  const looks = createMemo(() =>
    props.order.designIds.slice(0, MOST_LOOKS).flatMap((id) => props.kitchen().designs[id] ?? []),
  );
  const percent = (share: number): string => `${Math.round(share * 1000) / 10}%`;
  return (
    <article class="order" data-is={props.isStale ? "stale" : props.order.is.replaceAll(" ", "-")}>
      <p class="name">
        <b>{props.order.name}</b>
        <span> · {props.order.cookies}</span>
        <Show when={!props.isStale && isDoubtful(props.order.chance)}>
          <b class="chance"> · {words().orders.inTen(props.order.chance ?? 0)}</b>
        </Show>
        <span class="looks">
          <For each={looks()}>
            {(design) => <Cookie point={finishedCookie(design)} icings={props.kitchen().icings} />}
          </For>
        </span>
      </p>
      <p class="facts">
        <span class="pick-up">
          <span class="word">{words().orders.pickUpLabel} </span>
          {words().format.whenWithDay(props.order.pickUpAtMs, props.nowMs())}
        </span>
        <b class="spare">{props.isStale ? "" : words().orders.status(props.order.status, props.nowMs())}</b>
      </p>
      <div
        class="bar"
        role="img"
        aria-label={words().orders.progress(percent(props.order.done), percent(props.order.inHand))}
      >
        <i class="done" style={{ width: percent(props.order.done) }} />
        <i class="in-hand" style={{ width: percent(props.order.inHand) }} />
      </div>
    </article>
  );
}
