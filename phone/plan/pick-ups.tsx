import { For, Show, createMemo } from "solid-js";
import { alike } from "#shared/client/screen/alike.ts";
import { orderStrip, type OrderCard } from "#shared/kitchen/orders/progress.ts";
import type { AdviceAnswer } from "#shared/protocol/advice.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createAnswer } from "#phone/ui/answer.ts";

const ASK_EVERY_MS = 60_000;
/** For so many of the orders at risk the server is asked what would help. */
const ADVISED = 3;
/** A chance is drawn as so many parts. */
const PARTS = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];

/** Orders by pick-up, those at risk first: how likely each is in time, what it hangs on, and what would help first. */
export function PickUps() {
  const { board, words } = usePhone();
  const orders = createMemo(() =>
    orderStrip(board.kitchen(), board.forecasts(), board.nowMs()).filter(({ is }) => is !== "packed"),
  );
  const ids = createMemo(() => orders().map(({ key }) => key), [], alike);
  return (
    <ul class="cards">
      <For each={ids()} fallback={<li class="quiet">{words().orders.none}</li>}>
        {(id, index) => (
          <Show when={orders().find(({ key }) => key === id)}>
            {(order) => <PickUp order={order()} isAdvised={index() < ADVISED} />}
          </Show>
        )}
      </For>
    </ul>
  );
}

function PickUp(props: { order: OrderCard; isAdvised: boolean }) {
  const { board, words } = usePhone();
  const when = (): string => words().format.whenWithDay(props.order.pickUpAtMs, board.nowMs());
  const isShort = (): boolean => props.order.is === "short" || props.order.is === "may be short";
  const path = (): string | undefined =>
    props.isAdvised && isShort() ? `advice?order=${encodeURIComponent(props.order.key)}` : undefined;
  const answer = createAnswer<AdviceAnswer>(path, ASK_EVERY_MS);
  const help = () => {
    const given = answer();
    return given?.ok === true && "advice" in given.value ? given.value.advice.help[0] : undefined;
  };
  return (
    <li>
      <a class="card" data-is={props.order.is} href={`#/orders/${props.order.key}`}>
        <span class="order-top">
          <strong>{props.order.name}</strong>
          <strong class="order-spare">
            <Show
              when={props.order.chance !== undefined}
              fallback={words().orders.status(props.order.status, board.nowMs())}
            >
              {words().orders.inTen(props.order.chance ?? 0)}
            </Show>
          </strong>
        </span>
        <span>
          {when()}
          <Show when={isShort() && props.order.hangsOn}>
            {(hangsOn) => <> · {words().orders.hangsOn(hangsOn())}</>}
          </Show>
        </span>
        <Show when={help()}>
          {(help) => (
            <span>
              <b>{words().advice.act(help())}</b>
              <Show when={help().chance}>{(chance) => <>: {words().advice.chance(chance())}</>}</Show>
            </span>
          )}
        </Show>
        <Show when={props.order.chance !== undefined}>
          <span class="chance" aria-hidden="true">
            <For each={PARTS}>
              {(part) => <i data-on={part < Math.round(10 * (props.order.chance ?? 0))} />}
            </For>
          </span>
        </Show>
      </a>
    </li>
  );
}
