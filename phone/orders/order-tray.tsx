import { Show, createMemo } from "solid-js";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { TrayCookie } from "#phone/trays/tray-cookie.tsx";
import { trayCard } from "#phone/trays/tray-card.ts";

/** A tray in its order's list; a lead removes one that was not begun. */
export function OrderTray(props: { tray: Tray }) {
  const { board, isLead, act, words } = usePhone();
  const card = createMemo(() =>
    trayCard(words(), board.kitchen(), board.forecasts(), props.tray, board.nowMs()),
  );
  const remove = (): void =>
    void act({ type: "remove-tray", trayId: props.tray.id }, words().orders.trayRemoved(props.tray.number));
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
        <span class="wait">
          <TrayCookie tray={props.tray} />
          {card().wait}
        </span>
      </a>
      <Show when={isLead() && props.tray.status.stage === "queued"}>
        <button
          type="button"
          class="small"
          aria-label={words().orders.removeTray(props.tray.number)}
          onClick={remove}
        >
          {words().forms.remove}
        </button>
      </Show>
    </li>
  );
}
