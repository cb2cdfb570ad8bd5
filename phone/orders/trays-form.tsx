import { Show, createMemo, createSignal } from "solid-js";
import { rangeOf } from "#shared/fields.ts";
import { sortedByName } from "#shared/collections.ts";
import { asId } from "#shared/ids.ts";
import type { DesignId, PlaceId, TrayId } from "#shared/ids.ts";
import { aliveTrays, currentDesigns, roomLeft } from "#shared/kitchen/model/lookups.ts";
import { Order, TrayPlan } from "#shared/kitchen/model/vocabulary.ts";
import { Select, Stepper } from "#phone/ui/fields.tsx";
import { Form } from "#phone/ui/form.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { type MakeUp, takesNewTrays } from "#shared/kitchen/orders/make-up.ts";
import { freeNumbers, splitCookies, USUAL_PER_TRAY } from "#shared/kitchen/orders/tray-plans.ts";

/** Puts an order's cookies on numbered trays. */
export function TraysForm(props: {
  order: Order;
  missing: number;
  /** What is offered first. */
  makeUp: MakeUp | undefined;
  onDone: () => void;
}) {
  const { board, act, newId, words } = usePhone();
  const labels = () => words().orders.trays;
  const designs = createMemo(() =>
    sortedByName(currentDesigns(board.kitchen())).filter(({ isArchived }) => isArchived !== true),
  );
  const places = createMemo(() => sortedByName(board.kitchen().places).filter(takesNewTrays));
  const [chosenDesign, setDesign] = createSignal<string>();
  const [chosenPlace, setPlace] = createSignal<string>();
  const [cookies, setCookies] = createSignal<number | undefined>(Math.max(1, props.missing));
  const [perTray, setPerTray] = createSignal(props.makeUp?.perTray ?? USUAL_PER_TRAY);
  const taken = createMemo(() => new Set(aliveTrays(board.kitchen()).map((tray) => tray.number)));
  const [first, setFirst] = createSignal<number | undefined>(freeNumbers(taken(), 1, 1)[0]);
  const designId = (): string | undefined => chosenDesign() ?? props.makeUp?.designId ?? designs()[0]?.id;
  const placeId = (): string | undefined => chosenPlace() ?? props.makeUp?.placeId ?? places()[0]?.id;
  const counts = createMemo(() => splitCookies(cookies() ?? 0, perTray()));
  const numbers = createMemo(() => freeNumbers(taken(), first() ?? 1, counts().length));
  /** What the last tray holds, where it holds fewer. */
  const last = (): number | undefined => (counts().at(-1) === perTray() ? undefined : counts().at(-1));
  function save(): void {
    const [design, place] = [designId(), placeId()];
    if (design === undefined || place === undefined) return;
    const trays = counts().map((count, k): TrayPlan => ({
      id: asId<TrayId>(newId()),
      number: numbers()[k] ?? 0,
      designId: asId<DesignId>(design),
      orderId: props.order.id,
      count,
      placeId: asId<PlaceId>(place),
    }));
    if (act({ type: "add-trays", trays }, labels().added(numbers()))) props.onDone();
  }
  return (
    <Show
      when={designs().length > 0 && places().length > 0}
      fallback={
        <div class="form">
          <h2>{labels().title}</h2>
          <p class="field-error">
            {labels().needs} <a href="#/designs">{words().app.titles.designs}</a>,{" "}
            <a href="#/kitchen/places">{words().app.titles.places}</a>.
          </p>
          <button type="button" class="plain" onClick={() => props.onDone()}>
            {words().forms.cancel}
          </button>
        </div>
      }
    >
      <Form save={labels().add(counts().length)} onSave={save} onLeave={() => props.onDone()}>
        <h2>{labels().title}</h2>
        <Select
          label={labels().design}
          value={designId() ?? ""}
          options={designs().map(({ id, name }) => ({ value: id, name }))}
          onChange={setDesign}
        />
        <NumberField
          label={labels().cookies}
          value={cookies()}
          {...rangeOf(Order.entries.cookies)}
          onChange={setCookies}
        />
        <Stepper
          label={labels().perTray}
          value={perTray()}
          {...rangeOf(TrayPlan.entries.count)}
          onChange={setPerTray}
        />
        <NumberField
          label={labels().first}
          value={first()}
          {...rangeOf(TrayPlan.entries.number)}
          onChange={setFirst}
          hint={labels().firstHint}
        />
        <Select
          label={labels().place}
          value={placeId() ?? ""}
          options={places().map(({ id, name }) => ({
            value: id,
            name: labels().room(name, Math.max(0, roomLeft(board.kitchen(), id))),
          }))}
          onChange={setPlace}
        />
        <p class="note" role="status">
          {labels().plan(numbers(), last())}
        </p>
      </Form>
    </Show>
  );
}
