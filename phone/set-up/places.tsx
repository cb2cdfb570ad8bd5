import { Show, createSignal } from "solid-js";
import { AIR_SPEED_MS } from "#shared/drying/film/constants.ts";
import { boundsFor, CABINET_TOOL, OVEN_TOOL } from "#shared/heat/tool.ts";
import { asId, type PlaceId } from "#shared/ids.ts";
import { rangeOf } from "#shared/fields.ts";
import { Place, type PlaceKind } from "#shared/kitchen/model/vocabulary.ts";
import type { AirOverTrays } from "#shared/words/en/set-up.ts";
import { createDraft } from "#phone/ui/draft.ts";
import { EditorList } from "#phone/ui/editor-list.tsx";
import { Select, TextField } from "#phone/ui/fields.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { NumberField, TempField } from "#phone/ui/number-field.tsx";
import { Form } from "#phone/ui/form.tsx";
import { usePhone } from "#phone/app/phone.tsx";

/** What a place of a kind usually is; practice, no source. */
const USUAL: Readonly<Record<PlaceKind, { airSpeedMs: number; setTempC?: number }>> = {
  rack: { airSpeedMs: AIR_SPEED_MS.still },
  "fan-rack": { airSpeedMs: AIR_SPEED_MS.fan },
  bench: { airSpeedMs: AIR_SPEED_MS.still },
  "warm-cabinet": { airSpeedMs: CABINET_TOOL.airSpeedMs, setTempC: CABINET_TOOL.airC },
  oven: { airSpeedMs: OVEN_TOOL.airSpeedMs, setTempC: OVEN_TOOL.airC },
};
const KINDS = Object.keys(USUAL) as PlaceKind[];
const AIRS = ["still", "moving", "fan"] as const;

/** Where trays stand; a lead adds and changes them. */
export function Places() {
  const { board, words } = usePhone();
  const text = () => words().setUp.place;
  return (
    <EditorList
      items={board.kitchen().places}
      none={text().none}
      add={text().add}
      line={(place) => (
        <span class="words">
          <strong>{place.name}</strong>
          <span>{text().line(place.kind, place.capacity, place.airSpeedMs, place.setTempC)}</span>
        </span>
      )}
      form={(place, done) => <PlaceForm place={place()} onDone={done} />}
    />
  );
}

function PlaceForm(props: { place: Place | undefined; onDone: () => void }) {
  const { board, act, newId, words } = usePhone();
  const text = () => words().setUp.place;
  const opened: Place = props.place ?? {
    id: asId<PlaceId>(newId()),
    name: "",
    kind: "rack",
    capacity: 20,
    ...USUAL.rack,
  };
  const { draft, set, changesOn } = createDraft(opened);
  const kind = (): PlaceKind => draft.kind ?? "rack";
  const isHeated = (): boolean => kind() === "oven" || kind() === "warm-cabinet";
  const airAt = (speedMs: number | undefined) => AIRS.find((air) => AIR_SPEED_MS[air] === speedMs);
  const [isMeasured, setMeasured] = createSignal(airAt(opened.airSpeedMs) === undefined);
  const others = () => Object.values(board.kitchen().places).filter(({ id }) => id !== opened.id);
  function chooseKind(next: PlaceKind): void {
    setMeasured(airAt(USUAL[next].airSpeedMs) === undefined);
    set({ setTempC: undefined, ...USUAL[next], kind: next });
  }
  function chooseAir(air: AirOverTrays): void {
    setMeasured(air === "measured");
    if (air !== "measured") set("airSpeedMs", AIR_SPEED_MS[air]);
  }
  function save(): void {
    const place = changesOn(props.place);
    if (act({ type: "put-place", place }, words().forms.saved(place.name.trim()))) props.onDone();
  }
  function remove(): void {
    const { id, name } = opened;
    if (act({ type: "remove-place", placeId: id }, words().forms.removed(name))) props.onDone();
  }
  return (
    <Form
      onSave={save}
      onRemove={props.place === undefined ? undefined : remove}
      onLeave={() => props.onDone()}
    >
      <TextField
        label={text().name}
        value={draft.name ?? ""}
        schema={Place.entries.name}
        onInput={(name) => set("name", name)}
      />
      <Choice
        label={words().setUp.kind}
        value={kind()}
        options={KINDS.map((value) => ({
          value,
          name: words().format.sentence(words().terms.placeKinds[value]),
        }))}
        onChange={chooseKind}
      />
      <NumberField
        label={text().capacity}
        value={draft.capacity}
        {...rangeOf(Place.entries.capacity)}
        onChange={(capacity) => set("capacity", capacity)}
      />
      <Choice<AirOverTrays>
        label={text().air}
        value={isMeasured() ? "measured" : (airAt(draft.airSpeedMs) ?? "still")}
        options={[
          ...AIRS.map((value) => ({
            value,
            name: text().airs[value],
            hint: `${words().format.number(AIR_SPEED_MS[value], 2)} m/s`,
          })),
          { value: "measured", name: text().airs.measured },
        ]}
        onChange={chooseAir}
      />
      <Show when={isMeasured()}>
        <NumberField
          label={text().airSpeed}
          value={draft.airSpeedMs}
          {...rangeOf(Place.entries.airSpeedMs)}
          onChange={(speedMs) => set("airSpeedMs", speedMs)}
        />
      </Show>
      <Show when={isHeated()}>
        <TempField
          label={text().setTemp}
          valueC={draft.setTempC}
          {...boundsFor(kind() === "oven" ? "oven" : "warm-cabinet").airC}
          onChange={(tempC) => set("setTempC", tempC)}
        />
      </Show>
      <Show when={!isHeated() && others().length > 0}>
        <Select
          label={text().airFrom}
          value={draft.airFrom ?? ""}
          options={[
            { value: "", name: text().itself },
            ...others().map(({ id, name }) => ({ value: id, name })),
          ]}
          onChange={(from) => set("airFrom", from === "" ? undefined : asId<PlaceId>(from))}
          hint={text().airFromHint}
        />
      </Show>
    </Form>
  );
}
