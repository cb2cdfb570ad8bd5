import { For, Show, createMemo } from "solid-js";
import { sortedByName } from "#shared/collections.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createRange, RangeFields } from "./range-fields.tsx";
import { TrayLabels } from "./tray-labels.tsx";

/** Labels of a range of trays, and the way to whatever else is printed. */
export function PrintScreen() {
  const { board, words } = usePhone();
  const titles = () => words().app.titles;
  const trays = createMemo(() => aliveTrays(board.kitchen()).toSorted((a, b) => a.number - b.number));
  const orders = createMemo(() => sortedByName(board.kitchen().orders));
  const range = createRange(() => ({ from: trays()[0]?.number ?? 1, to: trays().at(-1)?.number ?? 1 }));
  const chosen = createMemo(() => {
    const { from, to } = range.range();
    return trays().filter(({ number }) => number >= from && number <= to);
  });
  return (
    <main>
      <h1 class="not-print">{titles().print}</h1>
      <nav class="choices not-print" aria-label={words().print.others}>
        <a href="#/icing">{titles().icing}</a>
        <a href="#/kitchen/day">{titles().day}</a>
        <a href="#/kitchen/hand-over">{titles()["hand-over"]}</a>
      </nav>
      <Show when={orders().length > 0}>
        <h2 class="not-print">{words().print.ofOrders}</h2>
        <nav class="choices not-print" aria-label={words().print.ofOrders}>
          <For each={orders()}>{({ id, name }) => <a href={`#/orders/${id}/labels`}>{name}</a>}</For>
        </nav>
      </Show>
      <h2 class="not-print">{words().print.ofTrays}</h2>
      <RangeFields of="trays" range={range} />
      <TrayLabels trays={chosen()} />
    </main>
  );
}
