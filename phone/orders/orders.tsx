import { For, Show, createMemo } from "solid-js";
import { alike } from "#shared/client/screen/alike.ts";
import { orderStrip } from "#shared/kitchen/orders/progress.ts";
import { lacksOf } from "#shared/kitchen/plan/lacks.ts";
import type { OrderCard } from "#shared/kitchen/orders/progress.ts";
import { MIN_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Page } from "#phone/ui/page.tsx";

/** Every order, the tightest first. */
export function Orders() {
  const { board, isLead, isWide, words } = usePhone();
  const titles = () => words().app.titles;
  const orders = createMemo(() => orderStrip(board.kitchen(), board.forecasts(), board.nowMs()));
  // Rows hang on ids, so that a second's new numbers are written into the rows that are there.
  const ids = createMemo(() => orders().map((order) => order.key), [], alike);
  const minuteMs = createMemo(() => Math.floor(board.nowMs() / MIN_MS) * MIN_MS);
  /** Of a kitchen without orders nothing is promised. */
  const lacks = createMemo(() => (ids().length > 0 ? lacksOf(board.kitchen(), minuteMs()) : []));
  return (
    <Page>
      <h1>{titles().orders}</h1>
      <For each={lacks()}>{(lack) => <p class="note">{words().orders.countsOn[lack]}</p>}</For>
      <Show when={!isWide()}>
        <nav class="choices" aria-label={words().orders.whatFollows}>
          <a href="#/icing">{titles().icing}</a>
          <a href="#/plan">{titles().plan}</a>
        </nav>
      </Show>
      <Show when={ids().length > 0} fallback={<p class="empty">{words().orders.none}</p>}>
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
          {words().orders.add}
        </a>
      </Show>
      <nav class="choices" aria-label={words().orders.madeOf}>
        <a href="#/designs">{titles().designs}</a>
        <a href="#/icings">{titles().icings}</a>
        <a href="#/print">{titles().print}</a>
      </nav>
    </Page>
  );
}

function OrderLine(props: { order: OrderCard }) {
  const { board, words, path } = usePhone();
  const isOpen = (): boolean => path()[1] === props.order.key;
  const percent = (share: number): string => words().format.percent(100 * share);
  return (
    <li>
      <a
        class="card"
        data-is={props.order.is}
        href={`#/orders/${props.order.key}`}
        aria-current={isOpen() ? "true" : undefined}
      >
        <span class="order-top">
          <strong>{props.order.name}</strong>
          <strong class="order-spare">{words().orders.status(props.order.status, board.nowMs())}</strong>
        </span>
        <span>
          {words().terms.cookies(props.order.cookies)} ·{" "}
          {words().orders.pickUp(words().format.whenWithDay(props.order.pickUpAtMs, board.nowMs()))}
        </span>
        <span class="order-bar" aria-hidden="true">
          <span style={{ width: `${props.order.done * 100}%` }} data-part="done" />
          <span style={{ width: `${props.order.inHand * 100}%` }} data-part="in-hand" />
        </span>
        <span class="visually-hidden">
          {words().orders.progress(percent(props.order.done), percent(props.order.inHand))}
        </span>
      </a>
    </li>
  );
}
