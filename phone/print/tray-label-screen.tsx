import { createMemo } from "solid-js";
import { trayByNumber } from "#shared/kitchen/model/lookups.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { TrayLabels } from "./tray-labels.tsx";

/** One tray's label. */
export function TrayLabelScreen(props: { number: number }) {
  const { board, words } = usePhone();
  const trays = createMemo(() => trayByNumber(board.kitchen(), props.number) ?? []);
  return (
    <main>
      <h1 class="not-print">{words().print.tray(props.number)}</h1>
      <TrayLabels trays={[trays()].flat()} />
    </main>
  );
}
