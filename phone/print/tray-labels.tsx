import { For } from "solid-js";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { LABELS_AT_ONCE } from "#shared/kitchen/orders/boxes.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { LabelSheets } from "./label-sheets.tsx";
import { createOrigin } from "./origin.ts";
import { TrayLabel } from "./tray-label.tsx";

/** Labels of these trays. */
export function TrayLabels(props: { trays: readonly Tray[] }) {
  const { words } = usePhone();
  const origin = createOrigin(window.location);
  const shown = () => props.trays.slice(0, LABELS_AT_ONCE);
  return (
    <LabelSheets
      count={shown().length}
      none={words().print.none.trays}
      isCut={props.trays.length > LABELS_AT_ONCE}
      origin={origin}
    >
      <For each={shown()}>{(tray) => <TrayLabel tray={tray} origin={origin()} />}</For>
    </LabelSheets>
  );
}
