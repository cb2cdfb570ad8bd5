import { Show, createMemo } from "solid-js";
import { nameOf, tooOld } from "#shared/kitchen/mixing/batches.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { nextAct } from "#shared/kitchen/tray/route.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** All icing of a tray's next layer is past its use-by: said before the layer is begun; once it is in hand an alert says it. */
export function OldIcing(props: { tray: Tray; design: Design }) {
  const { board, words } = usePhone();
  const text = createMemo(() => {
    const next = nextAct(board.kitchen(), props.tray);
    const layer = next.kind === "flood" ? props.design.layers[next.layer] : undefined;
    const batch = layer && tooOld(board.kitchen(), layer, board.nowMs());
    return batch && words().icing.tooOld(nameOf(board.kitchen(), batch), batch.useByAtMs, board.nowMs());
  });
  return <Show when={text()}>{(text) => <strong>{text()}</strong>}</Show>;
}
