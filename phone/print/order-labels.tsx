import { For, Show, createMemo, createSignal } from "solid-js";
import { traysOf } from "#shared/kitchen/model/lookups.ts";
import type { OrderState, Tray } from "#shared/kitchen/model/state.ts";
import { boxes, boxSize, LABELS_AT_ONCE } from "#shared/kitchen/orders/boxes.ts";
import { Gone } from "#phone/ui/page.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { TextField } from "#phone/ui/fields.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { fromLocalInput, toLocalInput } from "#phone/ui/local-time.ts";
import { BoxLabel } from "./box-label.tsx";
import { LabelSheets } from "./label-sheets.tsx";
import { createRange, RangeFields } from "./range-fields.tsx";
import { TrayLabels } from "./tray-labels.tsx";

const KINDS = ["trays", "boxes"] as const;

/** An order's labels: those of its trays, or those of its boxes. */
export function OrderLabels(props: { orderId: string }) {
  const { board, words } = usePhone();
  const order = createMemo(() => board.kitchen().orders[props.orderId]);
  return (
    <main>
      <Show when={order()} fallback={<Gone text={words().orders.gone} />}>
        {(order) => <Labels order={order()} />}
      </Show>
    </main>
  );
}

function Labels(props: { order: OrderState }) {
  const { board, words } = usePhone();
  const trays = createMemo(() =>
    traysOf(board.kitchen(), props.order.id).toSorted((a, b) => a.number - b.number),
  );
  const unpacked = createMemo(() => trays().filter(({ status }) => status.stage !== "packed"));
  const [kind, setKind] = createSignal<(typeof KINDS)[number]>(
    trays().length > 0 && unpacked().length === 0 ? "boxes" : "trays",
  );
  return (
    <>
      <h1 class="not-print">{props.order.name}</h1>
      <div class="not-print">
        <Choice
          label={words().print.kind}
          value={kind()}
          options={KINDS.map((value) => ({ value, name: words().print.kinds[value] }))}
          onChange={setKind}
        />
      </div>
      <Show when={kind() === "trays"} fallback={<BoxLabels order={props.order} trays={trays()} />}>
        <TrayLabels trays={unpacked()} />
      </Show>
    </>
  );
}

function BoxLabels(props: { order: OrderState; trays: readonly Tray[] }) {
  const { board, words, zone } = usePhone();
  const size = createMemo(() => boxSize(board.kitchen(), props.order));
  const all = () => ({ from: 1, to: Math.ceil(props.order.cookies / (size() ?? props.order.cookies)) });
  const range = createRange(all);
  const found = createMemo(() => boxes(size() ?? 1, props.order, props.trays, range.range()));
  const [packedOn, setPackedOn] = createSignal(toLocalInput(board.nowMs(), zone()).slice(0, 10));
  const packedOnMs = () => fromLocalInput(`${packedOn()}T12:00`, zone());
  return (
    <Show when={size()} fallback={<p class="empty">{words().print.noBoxes}</p>}>
      <RangeFields of="boxes" range={range} />
      <Show when={found().some(({ isFull }) => !isFull)}>
        <div class="not-print">
          <TextField label={words().print.packedOn} type="date" value={packedOn()} onInput={setPackedOn} />
        </div>
      </Show>
      <LabelSheets
        count={found().length}
        none={words().print.none.boxes}
        isCut={range.range().to - range.range().from >= LABELS_AT_ONCE}
      >
        <For each={found()}>
          {(box) => <BoxLabel order={props.order} box={box} packedOnMs={packedOnMs()} />}
        </For>
      </LabelSheets>
    </Show>
  );
}
