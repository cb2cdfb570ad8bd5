import { Show, createMemo } from "solid-js";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { Qr } from "#shared/client/screen/qr.tsx";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { finishedCookie } from "#shared/kitchen/tray/cookie-picture.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** Names of more letters take more lines, and are set smaller. */
const LONG = { order: 26, design: 16 };

/** A tray's label: its number for the eye, its code for a phone's camera, what is on it and for whom. */
export function TrayLabel(props: { tray: Tray; origin: string | undefined }) {
  const { board, words } = usePhone();
  const text = () => words().print;
  const order = createMemo(() => board.kitchen().orders[props.tray.orderId]);
  const design = createMemo(() => board.kitchen().designs[props.tray.designId]);
  const isDense = (): boolean =>
    (order()?.name ?? "").length > LONG.order || (design()?.name ?? "").length > LONG.design;
  return (
    <article class="label tray-label" data-dense={isDense()} aria-label={text().tray(props.tray.number)}>
      <div class="label-words">
        <strong class="label-number">{props.tray.number}</strong>
        <strong class="label-name">{order()?.name}</strong>
        <span>{text().holds(props.tray.count, design()?.name ?? "")}</span>
        <Show when={order()}>{(order) => <span>{text().pickUp(order().pickUpAtMs)}</span>}</Show>
      </div>
      <div class="label-pictures">
        <Show when={props.origin}>
          {(origin) => (
            <Qr
              class="label-code"
              text={`${origin()}/t/${props.tray.number}`}
              label={text().opens(props.tray.number)}
            />
          )}
        </Show>
        <Show when={design()}>
          {(design) => (
            <Cookie class="label-cookie" point={finishedCookie(design())} icings={board.kitchen().icings} />
          )}
        </Show>
      </div>
    </article>
  );
}
