import { createSignal } from "solid-js";
import { asId } from "#shared/ids.ts";
import type { OrderId } from "#shared/ids.ts";
import type { Order } from "#shared/kitchen/model/vocabulary.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { fromLocalInput, toLocalInput } from "#phone/ui/local-time.ts";
import { mergeChanges } from "#phone/ui/merge.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { DAY_MS, HOUR_MS } from "#shared/time.ts";

/** An order: its name, how many cookies, and when it must be packed. */
export function OrderForm(props: { order?: Order; onDone: (orderId?: string) => void }) {
  const { board, act, zone, newId } = usePhone();
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
  function save(): void {
    if (name().trim() === "")
      return void setFault({ message: "The order's name is missing.", field: "Name" });
    if (fromLocalInput(pickUp(), zone()) === undefined)
      return void setFault({
        message: "Pick-up must be a day and a time.",
        field: "Pick-up: packed by then",
      });
    if (count() === undefined)
      return void setFault({ message: "Cookies must be a whole number from 1 to 20000.", field: "Cookies" });
    // Someone else may have changed it meanwhile.
    const stands = board.kitchen().orders[id];
    const order = stands === undefined ? written() : mergeChanges<Order>(stands, opened, written());
    const isChange = props.order === undefined ? {} : { isChange: true };
    if (act({ type: "put-order", order, ...isChange }, `${name().trim()} saved`)) props.onDone(id);
  }
  return (
    <Form fault={fault()} onSave={save} onLeave={() => props.onDone()}>
      <h2>{props.order === undefined ? "A new order" : "Change the order"}</h2>
      <TextField label="Name" value={name()} onInput={setName} maxLength={60} />
      <TextField
        label="Pick-up: packed by then"
        type="datetime-local"
        value={pickUp()}
        onInput={setPickUp}
        hint={`The kitchen's clock, ${zone()}`}
      />
      <NumberField label="Cookies" value={count()} min={1} max={20000} onChange={setCount} />
      <TextField
        label="Allergens"
        value={allergens()}
        onInput={setAllergens}
        maxLength={140}
        hint="As your own labels name them. This page clears nothing."
      />
      <TextField label="Note" value={note()} onInput={setNote} maxLength={280} />
    </Form>
  );
}
