import { For, Show, createMemo, createSignal } from "solid-js";
import { isReached } from "#shared/kitchen/model/forecast.ts";
import { orderCard, spareWords } from "#shared/kitchen/orders/progress.ts";
import { traysOf, spoiledOn } from "#shared/kitchen/model/state.ts";
import { cookiesOnTrays, spoiledOf, spoiledShort } from "#shared/kitchen/model/order-cookies.ts";
import type { OrderState, Tray } from "#shared/kitchen/model/state.ts";
import { cookies } from "#shared/words/wording.ts";
import { WhatHelps } from "./advice.tsx";
import { OrderForm } from "./order-form.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";
import { trayCard } from "#phone/trays/tray-card.ts";
import { TraysForm } from "./trays-form.tsx";
import { sayBandTimes, sayPickUp, sayWhen } from "#phone/ui/when.ts";

/** One order: does it make its pick-up, and where are its trays. */
export function OrderScreen(props: { id: string }) {
  const { board } = usePhone();
  const order = createMemo(() => board.kitchen().orders[props.id]);
  return (
    <main>
      <Show
        when={order()}
        fallback={
          <p class="empty">This order is not here any more. It may be packed and put away, or cancelled.</p>
        }
      >
        {(order) => <OrderBody order={order()} />}
      </Show>
    </main>
  );
}

function OrderBody(props: { order: OrderState }) {
  const { board, zone, isLead, act, go } = usePhone();
  const [part, setPart] = createSignal<"edit" | "trays" | "cancel">();
  const outlook = createMemo(() => board.forecasts().orders[props.order.id]);
  const trays = createMemo(() =>
    traysOf(board.kitchen(), props.order.id).toSorted((a, b) => a.number - b.number),
  );
  const alive = createMemo(() => trays().filter(({ standing }) => standing.stage !== "packed"));
  const onTrays = (): number => cookiesOnTrays(props.order, trays());
  const missing = (): number => props.order.cookies - onTrays();
  const short = (): number => spoiledShort(props.order, trays());
  const spoiled = (): number => spoiledOf(props.order, trays());
  const spoiledDesign = (): string | undefined => trays().find((tray) => spoiledOn(tray) > 0)?.designId;
  const card = createMemo(() => orderCard(board.kitchen(), board.forecasts(), props.order, board.nowMs()));
  /** Its card says by itself that it is packed, or waits to be. */
  const isDrying = (): boolean =>
    alive().length > 0 && card().is !== "packed" && card().is !== "ready to pack";
  /** What is dried late; advice is of no use where all of it is packed, or on no tray. */
  const isDryingLate = (): boolean => {
    const { is } = spareWords(outlook());
    return alive().length > 0 && card().is !== "packed" && (is === "short" || is === "may be short");
  };
  return (
    <>
      <h1>{props.order.name}</h1>
      <p class="order-facts">
        <strong>
          pick-up {sayPickUp(props.order.pickUpAtMs, zone(), board.nowMs())} · {card().words}
        </strong>
        <Show when={isDrying() && outlook()?.finish} keyed>
          {(finish) => (
            <span>
              {isReached(finish)
                ? `${missing() > 0 ? "Those on trays can" : "Can"} be packed ${sayBandTimes(finish, zone(), board.nowMs())}, likeliest ${sayWhen(finish.likelyMs, zone(), board.nowMs())}`
                : finish.never}
            </span>
          )}
        </Show>
        <span>
          {cookies(props.order.cookies)} ordered, {onTrays()} {spoiled() > 0 ? "good " : ""}on trays
          {spoiled() > 0 ? `, ${spoiled()} spoiled` : ""}
          {short() > 0
            ? `: ${short()} short`
            : missing() > 0
              ? `: ${missing()} still to be put on trays`
              : ""}
        </span>
        <Show when={props.order.allergens}>{(allergens) => <span>Allergens: {allergens()}</span>}</Show>
        <Show when={props.order.note}>{(note) => <span>{note()}</span>}</Show>
      </p>
      <Show when={isLead() && short() > 0 && part() === undefined}>
        <button type="button" class="act" onClick={() => setPart("trays")}>
          Add a make-up tray
          <small>
            {cookies(short())} short: {spoiled()} spoiled
          </small>
        </button>
      </Show>
      <Show when={isDryingLate()}>
        <WhatHelps order={props.order} trays={alive()} of="order" />
      </Show>
      <Show when={alive().length > 0 || missing() > 0}>
        <a class="plain wide" href={`#/icing/${props.order.id}`}>
          Icing to mix for this order
        </a>
      </Show>
      <ul class="cards">
        <For each={trays()}>{(tray) => <OrderTray tray={tray} />}</For>
      </ul>
      <Show when={isLead()}>
        <Show when={part() === "trays"}>
          <TraysForm
            order={props.order}
            missing={missing()}
            designId={spoiledDesign()}
            onDone={() => setPart(undefined)}
          />
        </Show>
        <Show when={part() === "edit"}>
          <OrderForm order={props.order} onDone={() => setPart(undefined)} />
        </Show>
        <Show when={part() === undefined}>
          <button type="button" class="act" onClick={() => setPart("trays")}>
            Add trays
          </button>
          <div class="choices">
            <button type="button" onClick={() => setPart("edit")}>
              Change the order
            </button>
            <button type="button" onClick={() => setPart("cancel")}>
              Cancel the order
            </button>
          </div>
        </Show>
        <Show when={part() === "cancel"}>
          <Sheet title={`Cancel ${props.order.name}?`} tone="risk" onClose={() => setPart(undefined)}>
            <p class="sheet-message">
              {cookies(props.order.cookies)} for {sayPickUp(props.order.pickUpAtMs, zone(), board.nowMs())}.
              You can undo it for 20 s.
            </p>
            <button
              type="button"
              class="act risk"
              onClick={() => {
                setPart(undefined);
                if (act({ type: "cancel-order", orderId: props.order.id }, `${props.order.name} cancelled`))
                  go("orders");
              }}
            >
              Cancel the order
            </button>
            <button type="button" class="plain" onClick={() => setPart(undefined)}>
              Keep it
            </button>
          </Sheet>
        </Show>
      </Show>
    </>
  );
}

function OrderTray(props: { tray: Tray }) {
  const { board, isLead, act, words } = usePhone();
  const card = createMemo(() =>
    trayCard(words(), board.kitchen(), board.forecasts(), props.tray, board.nowMs()),
  );
  return (
    <li class="with-act">
      <a
        class="tray-card compact"
        data-tone={card().tone === "hands" ? "fresh" : card().tone}
        href={`#/t/${props.tray.number}`}
      >
        <span class="number">{props.tray.number}</span>
        <span class="words">
          <strong>{card().title}</strong>
          <span>{card().detail}</span>
        </span>
        <span class="wait">{card().wait}</span>
      </a>
      <Show when={isLead() && props.tray.standing.stage === "queued"}>
        <button
          type="button"
          class="small"
          aria-label={`Remove tray ${props.tray.number}`}
          onClick={() =>
            act({ type: "remove-tray", trayId: props.tray.id }, `Tray ${props.tray.number} removed`)
          }
        >
          Remove
        </button>
      </Show>
    </li>
  );
}
