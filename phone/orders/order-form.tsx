import { createSignal } from "solid-js";
import { longestOf, rangeOf } from "#shared/fields.ts";
import { asId } from "#shared/ids.ts";
import type { OrderId } from "#shared/ids.ts";
import { Order } from "#shared/kitchen/model/vocabulary.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { fromLocalInput, toLocalInput } from "#phone/ui/local-time.ts";
import { mergeChanges } from "#phone/ui/merge.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { DAY_MS, HOUR_MS } from "#shared/time.ts";

/** An order: its name, how many cookies, and when it must be packed. */
export function OrderForm(props: { order?: Order; onDone: (orderId?: string) => void }) {
  const { board, act, zone, newId, words } = usePhone();
  const { entries } = Order;
  const labels = () => words().orders.form;
  const tomorrow = Math.ceil((board.nowMs() + DAY_MS) / HOUR_MS) * HOUR_MS;
  const [name, setName] = createSignal(props.order?.name ?? "");
  const [pickUp, setPickUp] = createSignal(toLocalInput(props.order?.pickUpAtMs ?? tomorrow, zone()));
  const [count, setCount] = createSignal<number | undefined>(props.order?.cookies ?? 24);
  const [allergens, setAllergens] = createSignal(props.order?.allergens ?? "");
  const [note, setNote] = createSignal(props.order?.note ?? "");
  const [fault, setFault] = createSignal<Fault>();
  const id = props.order?.id ?? asId<OrderId>(newId());
  const written = (): Order => ({
    id,
    name: name(),
    pickUpAtMs: fromLocalInput(pickUp(), zone()) ?? 0,
    cookies: count() ?? 0,
    ...(note().trim() === "" ? {} : { note: note() }),
    ...(allergens().trim() === "" ? {} : { allergens: allergens() }),
  });
  const opened = written();
  function faultOf(): Fault | undefined {
    const { name: nameLabel, pickUp: pickUpLabel, pickUpMissing, cookies } = labels();
    const { missing } = words().forms;
    if (name().trim() === "") return { message: missing(nameLabel), field: nameLabel };
    if (fromLocalInput(pickUp(), zone()) === undefined) return { message: pickUpMissing, field: pickUpLabel };
    return count() === undefined ? { message: missing(cookies), field: cookies } : undefined;
  }
  function save(): void {
    const fault = faultOf();
    setFault(fault);
    if (fault !== undefined) return;
    // Someone else may have changed it meanwhile.
    const stands = board.kitchen().orders[id];
    const order = stands === undefined ? written() : mergeChanges<Order>(stands, opened, written());
    const isChange = props.order === undefined ? {} : { isChange: true };
    if (act({ type: "put-order", order, ...isChange }, words().forms.saved(name().trim()))) props.onDone(id);
  }
  return (
    <Form fault={fault()} onSave={save} onLeave={() => props.onDone()}>
      <h2>{props.order === undefined ? words().app.titles["new-order"] : words().orders.change}</h2>
      <TextField label={labels().name} value={name()} onInput={setName} maxLength={longestOf(entries.name)} />
      <TextField
        label={labels().pickUp}
        type="datetime-local"
        value={pickUp()}
        onInput={setPickUp}
        hint={labels().pickUpHint(zone())}
      />
      <NumberField
        label={labels().cookies}
        value={count()}
        {...rangeOf(entries.cookies)}
        onChange={setCount}
      />
      <TextField
        label={labels().allergens}
        value={allergens()}
        onInput={setAllergens}
        maxLength={longestOf(entries.allergens)}
        hint={labels().allergensHint}
      />
      <TextField label={labels().note} value={note()} onInput={setNote} maxLength={longestOf(entries.note)} />
    </Form>
  );
}
