import { isReached } from "#shared/drying/uncertainty/band.ts";
import { Show, createMemo, createSignal } from "solid-js";
import { KeyedFor } from "#shared/client/screen/keyed-for.tsx";
import { type OrderCard, orderCard } from "#shared/kitchen/orders/progress.ts";
import { timeLeftOf } from "#shared/kitchen/orders/time-left.ts";
import { makeUpFor } from "#shared/kitchen/orders/make-up.ts";
import { traysOf } from "#shared/kitchen/model/lookups.ts";
import { cookiesOnTrays, secondsOf, spoiledOf, spoiledShort } from "#shared/kitchen/model/order-cookies.ts";
import type { OrderState } from "#shared/kitchen/model/state.ts";
import type { CookieCounts } from "#shared/words/en/orders.ts";
import { Gone } from "#phone/ui/page.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { WhatHelps } from "./advice.tsx";
import { CancelSheet } from "./cancel-sheet.tsx";
import { OrderBatches } from "./order-batches.tsx";
import { MakeUpNote } from "./make-up-note.tsx";
import { OrderForm } from "./order-form.tsx";
import { OrderPacking } from "./order-packing.tsx";
import { OrderTray } from "./order-tray.tsx";
import { TraysForm } from "./trays-form.tsx";

/** One order: does it make its pick-up, and where are its trays. */
export function OrderScreen(props: { id: string }) {
  const { board, words } = usePhone();
  const order = createMemo(() => board.kitchen().orders[props.id]);
  return (
    <main>
      <Show when={order()} fallback={<Gone text={words().orders.gone} />}>
        {(order) => <OrderBody order={order()} />}
      </Show>
    </main>
  );
}

function OrderBody(props: { order: OrderState }) {
  const { board, isLead, words } = usePhone();
  /** What is open at the page's foot. */
  const [part, setPart] = createSignal<"edit" | "trays" | "cancel">();
  const close = () => setPart(undefined);
  const trays = createMemo(() =>
    traysOf(board.kitchen(), props.order.id).toSorted((a, b) => a.number - b.number),
  );
  const alive = createMemo(() => trays().filter(({ status }) => status.stage !== "packed"));
  const counts = createMemo((): CookieCounts => {
    const { cookies: ordered } = props.order;
    const onTrays = cookiesOnTrays(props.order, trays());
    const [spoiled, short] = [spoiledOf(props.order, trays()), spoiledShort(props.order, trays())];
    const seconds = secondsOf(props.order, trays());
    return { ordered, onTrays, spoiled, seconds, short, missing: ordered - onTrays };
  });
  const makeUp = createMemo(() => makeUpFor(board.kitchen(), props.order));
  const card = createMemo(() => orderCard(board.kitchen(), board.forecasts(), props.order, board.nowMs()));
  /** Dried late. Advice is of no use where all of it is packed, or on no tray. */
  const isLate = (): boolean => {
    const { code } = timeLeftOf(board.forecasts().orders[props.order.id]);
    const isTimeLate = code === "late" || code === "may-be-late" || code === "never";
    return isTimeLate && alive().length > 0 && card().is !== "packed";
  };
  return (
    <>
      <h1>{props.order.name}</h1>
      <OrderFacts order={props.order} card={card()} counts={counts()} isAlive={alive().length > 0} />
      <Show when={makeUp()}>{(makeUp) => <MakeUpNote order={props.order} makeUp={makeUp()} />}</Show>
      <Show when={isLead() && counts().short > 0 && part() === undefined}>
        <button type="button" class="act" onClick={() => setPart("trays")}>
          {words().orders.addMakeUp}
          <small>{words().orders.makeUpFor(counts())}</small>
        </button>
      </Show>
      <OrderPacking order={props.order} />
      <Show when={isLate()}>
        <WhatHelps order={props.order} trays={alive()} of="order" />
      </Show>
      <Show when={alive().length > 0 || counts().missing > 0}>
        <a class="plain wide" href={`#/icing/${props.order.id}`}>
          {words().orders.icingToMix}
        </a>
      </Show>
      <OrderBatches order={props.order} />
      <Show when={trays().length > 0}>
        <a class="plain wide" href={`#/orders/${props.order.id}/labels`}>
          {words().print.labelsOfOrder}
        </a>
      </Show>
      <ul class="cards">
        <KeyedFor each={trays()} by={({ id }) => id}>
          {(tray) => <OrderTray tray={tray()} />}
        </KeyedFor>
      </ul>
      <Show when={isLead()}>
        <Show when={part() === "trays"}>
          <TraysForm order={props.order} missing={counts().missing} makeUp={makeUp()} onDone={close} />
        </Show>
        <Show when={part() === "edit"}>
          <OrderForm order={props.order} onDone={close} />
        </Show>
        <Show when={part() === "cancel"}>
          <CancelSheet order={props.order} onClose={close} />
        </Show>
        <Show when={part() === undefined}>
          <button type="button" class="act" onClick={() => setPart("trays")}>
            {words().orders.trays.title}
          </button>
          <div class="choices">
            <button type="button" onClick={() => setPart("edit")}>
              {words().orders.change}
            </button>
            <button type="button" onClick={() => setPart("cancel")}>
              {words().orders.cancel}
            </button>
          </div>
        </Show>
      </Show>
    </>
  );
}

function OrderFacts(props: { order: OrderState; card: OrderCard; counts: CookieCounts; isAlive: boolean }) {
  const { board, words } = usePhone();
  /** When it is dry. Its card says by itself that it is packed, or waits to be. */
  const finish = () =>
    props.isAlive && props.card.is !== "packed" && props.card.is !== "ready to pack"
      ? board.forecasts().orders[props.order.id]?.finish
      : undefined;
  return (
    <p class="order-facts">
      <strong>
        {words().orders.pickUp(words().format.whenWithDay(props.order.pickUpAtMs, board.nowMs()))} ·{" "}
        {words().orders.status(props.card.status, board.nowMs())}
      </strong>
      <Show when={finish()} keyed>
        {(finish) => (
          <span>
            {isReached(finish)
              ? words().orders.dryThrough(
                  props.counts.missing > 0,
                  words().format.bandTimes(finish, board.nowMs()),
                  words().format.when(finish.likelyMs, board.nowMs()),
                )
              : words().drying.whySentence(finish.never)}
          </span>
        )}
      </Show>
      <Show when={props.card.chance !== undefined}>
        <span>{words().orders.inTime(props.card.chance ?? 0)}</span>
      </Show>
      <Show when={props.card.closedAtMs}>
        {(atMs) => <span>{words().orders.closedAt(words().format.when(atMs(), board.nowMs()))}</span>}
      </Show>
      <Show when={props.card.chance !== undefined && props.card.hangsOn}>
        {(hangsOn) => <span>{words().orders.hangsOn(hangsOn())}</span>}
      </Show>
      <span>{words().orders.counts(props.counts)}</span>
      <Show when={props.order.note}>{(note) => <span>{note()}</span>}</Show>
    </p>
  );
}
