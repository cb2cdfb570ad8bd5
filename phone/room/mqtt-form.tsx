import { For } from "solid-js";
import { asId, type PlaceId } from "#shared/ids.ts";
import { MqttSettings } from "#shared/kitchen/model/mqtt-settings.ts";
import { createDraft } from "#phone/ui/draft.ts";
import { Select, TextField } from "#phone/ui/fields.tsx";
import { Choice } from "#phone/ui/plain-field.tsx";
import { Form } from "#phone/ui/form.tsx";
import { usePhone } from "#phone/app/phone.tsx";

const FIRST: MqttSettings = {
  url: "mqtt://",
  topic: "hygrometers/+",
  tempField: "temperature",
  rhField: "humidity",
  tempUnit: "C",
  places: [],
};
const UNITS = [
  { value: "C", name: "°C" },
  { value: "F", name: "°F" },
] as const;

type TextName = "url" | "topic" | "tempField" | "rhField" | "placeField" | "timeField";

/** Which broker to listen to and how its messages read. A login is the server's to know, never the kitchen's. */
export function MqttForm(props: { settings: MqttSettings | undefined; onDone: () => void }) {
  const { board, act, words } = usePhone();
  const text = () => words().room.hygrometers.broker;
  const { draft, set, changesOn } = createDraft(props.settings ?? FIRST);
  const mapping = () => draft.places ?? [];
  const places = () => Object.values(board.kitchen().places).map(({ id, name }) => ({ value: id, name }));
  const isMore = draft.placeField !== undefined || draft.timeField !== undefined || mapping().length > 0;

  function save(): void {
    set("places", (all = []) => all.filter(({ match, placeId }) => match.trim() !== "" && placeId !== ""));
    const mqtt = changesOn(props.settings && (board.kitchen().settings.mqtt ?? undefined));
    if (act({ type: "set-kitchen", settings: { mqtt } }, text().saved)) props.onDone();
  }
  function stop(): void {
    if (act({ type: "set-kitchen", settings: { mqtt: null } }, text().stopped)) props.onDone();
  }
  const Text = (field: { name: TextName }) => (
    <TextField
      {...text().fields[field.name]}
      value={draft[field.name] ?? ""}
      schema={MqttSettings.entries[field.name]}
      capitalise="none"
      onInput={(typed) => set(field.name, typed === "" ? undefined : typed)}
    />
  );
  return (
    <Form
      save={text().save}
      onSave={save}
      remove={text().stop}
      onRemove={props.settings === undefined ? undefined : stop}
      onLeave={() => props.onDone()}
    >
      <Text name="url" />
      <Text name="topic" />
      <Text name="tempField" />
      <Choice
        label={text().fields.tempUnit.label}
        value={draft.tempUnit ?? "C"}
        options={UNITS}
        onChange={(unit) => set("tempUnit", unit)}
      />
      <Text name="rhField" />
      <details open={isMore}>
        <summary>{text().fields.places.label}</summary>
        <Text name="placeField" />
        <Text name="timeField" />
        <For each={mapping()}>
          {(one, k) => (
            <fieldset class="layer-form">
              <legend>{text().mapping(k())}</legend>
              <TextField
                label={text().match}
                value={one.match}
                onInput={(match) => set("places", k(), "match", match)}
                maxLength={200}
                capitalise="none"
              />
              <Select
                label={text().place}
                value={one.placeId}
                options={places()}
                onChange={(placeId) => set("places", k(), "placeId", asId<PlaceId>(placeId))}
              />
              <button
                type="button"
                class="small"
                onClick={() => set("places", (all = []) => all.filter((_, at) => at !== k()))}
              >
                {words().forms.remove}
              </button>
            </fieldset>
          )}
        </For>
        <button
          type="button"
          class="plain wide"
          onClick={() =>
            set("places", mapping().length, {
              match: "",
              placeId: places()[0]?.value ?? asId<PlaceId>(""),
            })
          }
        >
          {text().addName}
        </button>
      </details>
    </Form>
  );
}
