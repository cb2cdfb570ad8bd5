import { Show, createSignal } from "solid-js";
import { rangeOf } from "#shared/fields.ts";
import { asId, type OrderId } from "#shared/ids.ts";
import { Order } from "#shared/kitchen/model/vocabulary.ts";
import { DAY_MS, HOUR_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createDraft } from "#phone/ui/draft.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { fromLocalInput, toLocalInput } from "#phone/ui/local-time.ts";
import { NumberField } from "#phone/ui/number-field.tsx";

/** An order: its name, how many cookies, and when it must be packed. */
export function OrderForm(props: { order?: Order; onDone: (orderId?: string) => void }) {
  const { board, act, zone, newId, words } = usePhone();
  const text = () => words().orders.form;
  const { entries } = Order;
  const tomorrow = Math.ceil((board.nowMs() + DAY_MS) / HOUR_MS) * HOUR_MS;
  const opened: Order = props.order ?? {
    id: asId<OrderId>(newId()),
    name: "",
    pickUpAtMs: tomorrow,
    cookies: 24,
  };
  const { draft, set, changesOn } = createDraft(opened);
  const [pickUp, setPickUp] = createSignal(toLocalInput(opened.pickUpAtMs, zone()));
  const [fault, setFault] = createSignal<Fault>();
  function save(): void {
    const pickUpAtMs = fromLocalInput(pickUp(), zone());
    if (pickUpAtMs === undefined)
      return void setFault({ message: text().pickUpMissing, field: text().pickUp });
    setFault(undefined);
    set("pickUpAtMs", pickUpAtMs);
    // Someone else may have changed it meanwhile.
    const order = changesOn(board.kitchen().orders[opened.id]);
    const isChange = props.order === undefined ? {} : { isChange: true };
    if (act({ type: "put-order", order, ...isChange }, words().forms.saved(order.name.trim())))
      props.onDone(order.id);
  }
  return (
    <Form fault={fault()} onSave={save} onLeave={() => props.onDone()}>
      <Show when={props.order} fallback={<h1>{words().app.titles["new-order"]}</h1>}>
        <h2>{words().orders.change}</h2>
      </Show>
      <TextField
        label={text().name}
        value={draft.name ?? ""}
        schema={entries.name}
        onInput={(name) => set("name", name)}
      />
      <TextField
        label={text().pickUp}
        type="datetime-local"
        value={pickUp()}
        onInput={setPickUp}
        hint={text().pickUpHint(zone())}
      />
      <NumberField
        label={text().cookies}
        value={draft.cookies}
        {...rangeOf(entries.cookies)}
        onChange={(cookies) => set("cookies", cookies)}
      />
      <NumberField
        label={words().packing.boxOf}
        value={draft.boxOf}
        {...rangeOf(entries.boxOf)}
        optional
        onChange={(boxOf) => set("boxOf", boxOf)}
        hint={words().packing.boxOfHint(board.kitchen().settings.boxOf)}
      />
      <TextField
        label={text().allergens}
        value={draft.allergens ?? ""}
        schema={entries.allergens}
        onInput={(allergens) => set("allergens", typed(allergens))}
        hint={text().allergensHint}
      />
      <TextField
        label={text().note}
        value={draft.note ?? ""}
        schema={entries.note}
        onInput={(note) => set("note", typed(note))}
      />
    </Form>
  );
}

/** Nothing typed is no text. */
const typed = (text: string): string | undefined => (text.trim() === "" ? undefined : text);
