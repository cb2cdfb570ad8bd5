import { Show, createSignal } from "solid-js";
import { AIR_SPEED_MS } from "#shared/drying/film/constants.ts";
import { boundsFor, CABINET_TOOL, OVEN_TOOL } from "#shared/heat/tool.ts";
import { asId } from "#shared/ids.ts";
import type { PlaceId } from "#shared/ids.ts";
import { longestOf, rangeOf } from "#shared/fields.ts";
import { Place, type PlaceKind } from "#shared/kitchen/model/vocabulary.ts";
import { formatTemp } from "#shared/units.ts";
import { EditorList } from "#phone/ui/editor-list.tsx";
import { Choice, Select, TextField } from "#phone/ui/fields.tsx";
import { NumberField, TempField } from "#phone/ui/number-field.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { mergeChanges } from "#phone/ui/merge.ts";
import { usePhone } from "#phone/app/phone.tsx";

export const PLACE_KINDS: readonly {
  value: PlaceKind;
  name: string;
  airSpeedMs: number;
  setTempC?: number;
}[] = [
  { value: "rack", name: "Rack", airSpeedMs: AIR_SPEED_MS.still },
  { value: "fan-rack", name: "Rack with a fan", airSpeedMs: AIR_SPEED_MS.fan },
  { value: "bench", name: "Bench", airSpeedMs: AIR_SPEED_MS.still },
  {
    value: "warm-cabinet",
    name: "Warm cabinet",
    airSpeedMs: CABINET_TOOL.airSpeedMs,
    setTempC: CABINET_TOOL.airC,
  },
  { value: "oven", name: "Oven", airSpeedMs: OVEN_TOOL.airSpeedMs, setTempC: OVEN_TOOL.airC },
];

export const kindName = (kind: PlaceKind): string =>
  PLACE_KINDS.find(({ value }) => value === kind)?.name ?? kind;

const { still, moving, fan } = AIR_SPEED_MS;

/** Air over the trays, as it is chosen; the figures are common practice, no source. */
const AIR = [
  { value: `${still}`, name: "Still", hint: `${still} m/s` },
  { value: `${moving}`, name: "Moving", hint: `${moving} m/s` },
  { value: `${fan}`, name: "Fan", hint: `${fan} m/s` },
  { value: "own", name: "As measured" },
];

/** Where trays stand; a lead adds and changes them. */
export function Places() {
  const { board, units } = usePhone();
  return (
    <EditorList
      items={board.kitchen().places}
      none="No places yet."
      add="Add a place"
      line={(place) => (
        <span class="words">
          <strong>{place.name}</strong>
          <span>
            {kindName(place.kind)} · {place.capacity} trays · air {place.airSpeedMs} m/s
            {place.setTempC === undefined ? "" : ` · ${formatTemp(place.setTempC, units())}`}
          </span>
        </span>
      )}
      form={(place, done) => <PlaceForm place={place()} onDone={done} />}
    />
  );
}

function PlaceForm(props: { place: Place | undefined; onDone: () => void }) {
  const { board, act, newId, units } = usePhone();
  const [name, setName] = createSignal(props.place?.name ?? "");
  const [kind, setKind] = createSignal<PlaceKind>(props.place?.kind ?? "rack");
  const [capacity, setCapacity] = createSignal<number | undefined>(props.place?.capacity ?? 20);
  const [speed, setSpeed] = createSignal<number | undefined>(props.place?.airSpeedMs ?? AIR_SPEED_MS.still);
  const known = (value: number | undefined): boolean => AIR.some((air) => air.value === String(value));
  const [measured, setMeasured] = createSignal(!known(props.place?.airSpeedMs ?? AIR_SPEED_MS.still));
  const [setC, setSetC] = createSignal<number | undefined>(props.place?.setTempC);
  const [airFrom, setAirFrom] = createSignal<string>(props.place?.airFrom ?? "");
  const [fault, setFault] = createSignal<Fault>();
  const isHeated = (): boolean => kind() === "oven" || kind() === "warm-cabinet";
  const bounds = () => boundsFor(kind() === "oven" ? "oven" : "warm-cabinet").airC;
  const others = () => Object.values(board.kitchen().places).filter(({ id }) => id !== props.place?.id);
  function chooseKind(value: PlaceKind): void {
    const usual = PLACE_KINDS.find((one) => one.value === value);
    setKind(value);
    setSpeed(usual?.airSpeedMs);
    setMeasured(false);
    setSetC(usual?.setTempC);
  }
  const id = props.place?.id ?? asId<PlaceId>(newId());
  const written = (): Place => {
    const tempC = setC();
    return {
      id,
      name: name(),
      kind: kind(),
      airSpeedMs: speed() ?? 0,
      capacity: Math.round(capacity() ?? 0),
      ...(isHeated() && tempC !== undefined ? { setTempC: tempC } : {}),
      ...(airFrom() === "" ? {} : { airFrom: asId<PlaceId>(airFrom()) }),
    };
  };
  const opened = written();
  function save(): void {
    if (name().trim() === "")
      return void setFault({ message: "The place's name is missing.", field: "Place's name" });
    if (capacity() === undefined) return void setFault({ message: "It must hold 1 to 400 trays." });
    if (speed() === undefined) return void setFault({ message: "Its air must be 0 to 10 m/s." });
    if (isHeated() && setC() === undefined)
      return void setFault({
        message: "The temperature it is set to is missing, or out of its range: see above.",
      });
    const place = props.place === undefined ? written() : mergeChanges(props.place, opened, written());
    setFault(undefined);
    if (act({ type: "put-place", place }, `${name().trim()} saved`)) props.onDone();
  }
  function remove(): void {
    const { place } = props;
    if (place !== undefined && act({ type: "remove-place", placeId: place.id }, `${place.name} removed`))
      props.onDone();
  }
  return (
    <Form
      fault={fault()}
      onSave={save}
      onRemove={props.place === undefined ? undefined : remove}
      onLeave={() => props.onDone()}
    >
      <TextField
        label="Place's name"
        value={name()}
        onInput={setName}
        maxLength={longestOf(Place.entries.name)}
      />
      <Choice label="Kind" value={kind()} options={PLACE_KINDS} onChange={chooseKind} />
      <NumberField
        label="Trays it holds"
        value={capacity()}
        {...rangeOf(Place.entries.capacity)}
        onChange={setCapacity}
      />
      <Choice
        label="Air over the trays"
        value={measured() ? "own" : String(speed())}
        options={AIR}
        onChange={(value) => {
          setMeasured(value === "own");
          if (value !== "own") setSpeed(Number(value));
        }}
      />
      <Show when={measured()}>
        <NumberField
          label="Air speed"
          value={speed()}
          {...rangeOf(Place.entries.airSpeedMs)}
          unit="m/s"
          onChange={setSpeed}
        />
      </Show>
      <Show when={isHeated()}>
        <TempField label="Set to" valueC={setC()} {...bounds()} units={units()} onChange={setSetC} />
      </Show>
      <Show when={!isHeated() && others().length > 0}>
        <Select
          label="Its air is read at"
          value={airFrom()}
          options={[{ value: "", name: "itself" }, ...others().map(({ id, name }) => ({ value: id, name }))]}
          onChange={setAirFrom}
          hint="One hygrometer may serve several places."
        />
      </Show>
    </Form>
  );
}
