import { For, createSignal } from "solid-js";
import { createStore } from "solid-js/store";
import { parse } from "#shared/fields.ts";
import { asId } from "#shared/ids.ts";
import type { PlaceId } from "#shared/ids.ts";
import { MqttSettings } from "#shared/kitchen/model/mqtt-settings.ts";
import { Choice, Select, TextField } from "#phone/ui/fields.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { mergeChanges } from "#phone/ui/merge.ts";
import { usePhone } from "#phone/app/phone.tsx";

const UNITS = [
  { value: "C", name: "°C" },
  { value: "F", name: "°F" },
] as const;

/** What each field is called on the form, for a refusal to name. */
const LABELS: Readonly<Record<string, string>> = {
  url: "Broker's address",
  topic: "Topic",
  tempField: "Field with the temperature",
  rhField: "Field with the humidity",
  placeField: "Field with the place's name",
  timeField: "Field with the time",
  places: "Names and places",
};

/** Which broker to listen to and how its messages read. A login is the server's to know, never the kitchen's. */
export function MqttForm(props: { settings: MqttSettings | undefined; onDone: () => void }) {
  const { board, act, words } = usePhone();
  const [url, setUrl] = createSignal(props.settings?.url ?? "mqtt://");
  const [topic, setTopic] = createSignal(props.settings?.topic ?? "hygrometers/+");
  const [tempField, setTempField] = createSignal(props.settings?.tempField ?? "temperature");
  const [rhField, setRhField] = createSignal(props.settings?.rhField ?? "humidity");
  const [placeField, setPlaceField] = createSignal(props.settings?.placeField ?? "");
  const [timeField, setTimeField] = createSignal(props.settings?.timeField ?? "");
  const [tempUnit, setTempUnit] = createSignal<MqttSettings["tempUnit"]>(props.settings?.tempUnit ?? "C");
  const [mapping, setMapping] = createStore<{ match: string; placeId: string }[]>(
    (props.settings?.places ?? []).map((one) => ({ ...one })),
  );
  const [fault, setFault] = createSignal<Fault>();
  const opened = props.settings;
  const places = () => Object.values(board.kitchen().places).map(({ id, name }) => ({ value: id, name }));

  function save(): void {
    const given = (text: string): string | undefined => (text.trim() === "" ? undefined : text.trim());
    const parsed = parse(MqttSettings, {
      url: url().trim(),
      topic: topic(),
      tempField: tempField(),
      rhField: rhField(),
      ...(given(placeField()) === undefined ? {} : { placeField: given(placeField()) }),
      ...(given(timeField()) === undefined ? {} : { timeField: given(timeField()) }),
      tempUnit: tempUnit(),
      places: mapping.filter(({ match, placeId }) => match.trim() !== "" && placeId !== ""),
    });
    if (!parsed.ok) {
      const { field, ...fault } = parsed.refusal;
      const label = LABELS[field.split(".")[0] ?? ""] ?? field;
      return void setFault({ message: `${words().faults.say({ ...fault, field: label })}.`, field: label });
    }
    setFault(undefined);
    const stands = board.kitchen().settings.mqtt ?? undefined;
    const mqtt =
      stands === undefined || opened === undefined
        ? parsed.value
        : mergeChanges(stands, opened, parsed.value);
    if (act({ type: "set-kitchen", settings: { mqtt } }, "Broker saved")) props.onDone();
  }
  function stop(): void {
    if (act({ type: "set-kitchen", settings: { mqtt: null } }, "No longer listening")) props.onDone();
  }
  return (
    <Form
      fault={fault()}
      save="Save and listen"
      onSave={save}
      remove="Stop listening"
      onRemove={props.settings === undefined ? undefined : stop}
      onLeave={() => props.onDone()}
    >
      <TextField
        label="Broker's address"
        value={url()}
        onInput={setUrl}
        maxLength={200}
        capitalise="none"
        hint="mqtt://192.168.1.20 or mqtts:// with TLS. A login is given to the server where it runs: TRAYTIDE_MQTT_USERNAME and TRAYTIDE_MQTT_PASSWORD."
      />
      <TextField
        label="Topic"
        value={topic()}
        onInput={setTopic}
        maxLength={200}
        capitalise="none"
        hint="+ stands for one level, # at the end for all that follow."
      />
      <TextField
        label="Field with the temperature"
        value={tempField()}
        onInput={setTempField}
        maxLength={100}
        capitalise="none"
        hint="In each message's JSON, with dots between levels: data.temp_c"
      />
      <Choice label="It is in" value={tempUnit()} options={UNITS} onChange={setTempUnit} />
      <TextField
        label="Field with the humidity"
        value={rhField()}
        onInput={setRhField}
        maxLength={100}
        capitalise="none"
      />
      <details open={placeField() !== "" || timeField() !== "" || mapping.length > 0}>
        <summary>Names, times and places</summary>
        <TextField
          label="Field with the place's name"
          value={placeField()}
          onInput={setPlaceField}
          maxLength={100}
          capitalise="none"
          hint="Empty: the last level of the topic names the place."
        />
        <TextField
          label="Field with the time"
          value={timeField()}
          onInput={setTimeField}
          maxLength={100}
          capitalise="none"
          hint="Empty: a message counts as of its arrival."
        />
        <For each={mapping}>
          {(one, k) => (
            <fieldset class="layer-form">
              <legend>Name {k() + 1}</legend>
              <TextField
                label="Its topic or name"
                value={one.match}
                onInput={(match) => setMapping(k(), "match", match)}
                maxLength={200}
                capitalise="none"
              />
              <Select
                label="hangs at"
                value={one.placeId}
                options={places()}
                onChange={(placeId) => setMapping(k(), "placeId", placeId)}
              />
              <button
                type="button"
                class="small"
                onClick={() => setMapping((all) => all.filter((_, at) => at !== k()))}
              >
                Remove
              </button>
            </fieldset>
          )}
        </For>
        <button
          type="button"
          class="plain wide"
          onClick={() =>
            setMapping(mapping.length, { match: "", placeId: places()[0]?.value ?? asId<PlaceId>("") })
          }
        >
          Add a name
        </button>
      </details>
    </Form>
  );
}
