import { Show, createMemo, createSignal } from "solid-js";
import { sortedByName } from "#shared/kitchen/model/by-name.ts";
import { asId } from "#shared/ids.ts";
import type { DesignId, PlaceId, TrayId } from "#shared/ids.ts";
import { aliveTrays, roomLeft } from "#shared/kitchen/model/state.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import type { Order, TrayPlan } from "#shared/kitchen/model/vocabulary.ts";
import { Select, Stepper } from "#phone/ui/fields.tsx";
import { NumberField } from "#phone/ui/number-field.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { freeNumbers, splitCookies } from "./tray-plans.ts";

/** Puts an order's cookies on numbered trays. */
export function TraysForm(props: {
  order: Order;
  missing: number;
  /** The design offered first. */
  designId: string | undefined;
  onDone: () => void;
}) {
  const { board, act, newId } = usePhone();
  const designs = createMemo(() => sortedByName(board.kitchen().designs));
  const places = createMemo(() =>
    sortedByName(board.kitchen().places).filter(({ kind }) => kind !== "oven" && kind !== "warm-cabinet"),
  );
  const [chosenDesign, setDesign] = createSignal<string>();
  const [chosenPlace, setPlace] = createSignal<string>();
  const [cookies, setCookies] = createSignal<number | undefined>(Math.max(1, props.missing));
  const [perTray, setPerTray] = createSignal(12);
  const taken = createMemo(() => new Set(aliveTrays(board.kitchen()).map((tray) => tray.number)));
  const [first, setFirst] = createSignal<number | undefined>(freeNumbers(taken(), 1, 1)[0]);
  const designId = (): string | undefined => chosenDesign() ?? props.designId ?? designs()[0]?.id;
  const placeId = (): string | undefined => chosenPlace() ?? places()[0]?.id;
  const counts = createMemo(() => splitCookies(cookies() ?? 0, perTray()));
  const numbers = createMemo(() => freeNumbers(taken(), first() ?? 1, counts().length));
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
    if (act({ type: "add-trays", trays }, `Trays ${sayNumbers(numbers())} added`)) props.onDone();
  }
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
    >
      <h2>Add trays</h2>
      <Show
        when={designs().length > 0 && places().length > 0}
        fallback={
          <p class="field-error">
            Trays need a design and a place first: <a href="#/designs">designs</a>,{" "}
            <a href="#/kitchen/places">places</a>.
          </p>
        }
      >
        <Select
          label="Design"
          value={designId() ?? ""}
          options={designs().map(({ id, name }) => ({ value: id, name }))}
          onChange={setDesign}
        />
        <NumberField
          label="Cookies to put on trays"
          value={cookies()}
          min={1}
          max={2000}
          onChange={setCookies}
        />
        <Stepper label="On each tray" value={perTray()} min={1} max={200} onChange={setPerTray} />
        <NumberField
          label="First tray number"
          value={first()}
          min={1}
          max={9999}
          onChange={setFirst}
          hint="Numbers in use are passed over."
        />
        <Select
          label="Where they stand"
          value={placeId() ?? ""}
          options={places().map(({ id, name }) => ({
            value: id,
            name: `${name} · room for ${Math.max(0, roomLeft(board.kitchen(), id))}`,
          }))}
          onChange={setPlace}
        />
        <p class="note" role="status">
          {counts().length === 0
            ? "No trays yet."
            : `${counts().length === 1 ? "Tray" : `${counts().length} trays:`} ${sayNumbers(numbers())}${
                counts().at(-1) === perTray() ? "" : `, the last with ${counts().at(-1)}`
              }`}
        </p>
        <button type="submit" class="act" disabled={counts().length === 0}>
          Add {counts().length === 1 ? "the tray" : `${counts().length} trays`}
        </button>
      </Show>
      <button type="button" class="plain" onClick={() => props.onDone()}>
        Leave it
      </button>
    </form>
  );
}
