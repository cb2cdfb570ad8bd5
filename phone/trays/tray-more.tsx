import { Show, createMemo } from "solid-js";
import { isReached } from "#shared/drying/uncertainty/band.ts";
import { spareAfterPacking } from "#shared/kitchen/orders/pick-up.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { WhatHelps } from "#phone/orders/advice.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { TrayBatches } from "./tray-batches.tsx";
import { TrayHistory } from "./tray-history.tsx";
import { TrayStrip } from "./tray-strip.tsx";

/** Below a tray's acts: what helps where it is late, its way so far, its batches, its label and its history. */
export function TrayMore(props: { tray: Tray; design: Design }) {
  const { board, words } = usePhone();
  const order = createMemo(() => board.kitchen().orders[props.tray.orderId]);
  /** Dry through too late for its order's pick-up, at the latest if not likely. */
  const isLate = createMemo(() => {
    const [finish, due] = [board.forecasts().trays[props.tray.id]?.finish, order()];
    if (finish === undefined || due === undefined || props.tray.status.stage === "packed") return false;
    if (!isReached(finish)) return true;
    return spareAfterPacking(board.kitchen(), due, finish.latestMs, board.nowMs()) < 0;
  });
  return (
    <>
      <Show when={isLate() && order()}>
        {(order) => <WhatHelps order={order()} trays={[props.tray]} of="tray" />}
      </Show>
      <TrayStrip tray={props.tray} />
      <TrayBatches tray={props.tray} />
      <a class="plain wide" href={`#/t/${props.tray.number}/label`}>
        {words().print.labelOfTray}
      </a>
      <TrayHistory tray={props.tray} design={props.design} />
    </>
  );
}
