import { For, Match, Show, Switch, createMemo, createSignal } from "solid-js";
import { alike } from "#shared/client/screen/alike.ts";
import { airTrouble } from "#shared/drying/air-record/readings.ts";
import type { PlaceId } from "#shared/ids.ts";
import { byName, sortedByName } from "#shared/collections.ts";
import type { MqttSettings } from "#shared/kitchen/model/mqtt-settings.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import type { SensorsAnswer } from "#shared/protocol/readings.ts";
import { createAnswer } from "#phone/ui/answer.ts";
import { askFaultWords } from "#phone/ui/ask.ts";
import { MqttForm } from "./mqtt-form.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { MIN_MS } from "#shared/time.ts";

const ASK_EVERY_MS = 5000;

/** Where the air's figures come from: each place's reading, the broker and who is heard there, and the line for HTTP. */
export function Hygrometers() {
  const { board, words } = usePhone();
  const text = () => words().room.hygrometers;
  const [isEditing, setEditing] = createSignal(false);
  const mqtt = createMemo(() => board.kitchen().settings.mqtt ?? undefined);
  const places = createMemo(() => sortedByName(board.kitchen().places));
  const isRead = ({ id }: Place): boolean => (board.kitchen().readings[id]?.length ?? 0) > 0;
  const read = createMemo(() => places().filter(isRead));
  /** The others, by whose hygrometer they go. */
  const unread = createMemo(() =>
    [...byName(places(), ({ airFrom }) => airFrom ?? "")].flatMap(([from, all]) => {
      const names = all.filter((place) => !isRead(place)).map(({ name }) => name);
      return names.length === 0 ? [] : [text().goBy(names, board.kitchen().places[from]?.name)];
    }),
  );
  return (
    <>
      <h2>{text().places}</h2>
      <ul class="cards">
        <For each={read()} fallback={<li class="quiet">{text().noneRead}</li>}>
          {(place) => <PlaceReadings place={place} />}
        </For>
      </ul>
      <For each={unread()}>{(line) => <p class="note">{line}</p>}</For>
      <h2>{words().setUp.settings(0).mqtt.label}</h2>
      <Show when={!isEditing()} fallback={<MqttForm settings={mqtt()} onDone={() => setEditing(false)} />}>
        <Show when={mqtt()} fallback={<p class="quiet">{text().noBroker}</p>}>
          {(mqtt) => <Broker mqtt={mqtt()} places={places()} />}
        </Show>
        <button type="button" class="plain wide" onClick={() => setEditing(true)}>
          {mqtt() === undefined ? text().listen : text().changeBroker}
        </button>
      </Show>
      <OverHttp place={(read()[0] ?? places()[0])?.name ?? "Rack A"} />
    </>
  );
}

/** Whether a place's hygrometer speaks, is silent, or stuck. */
function PlaceReadings(props: { place: Place }) {
  const { board, words } = usePhone();
  const text = () => words().room.hygrometers;
  const lines = createMemo(() => board.kitchen().readings[props.place.id] ?? []);
  const trouble = createMemo(() => {
    const { silentMin, frozen } = airTrouble(lines(), board.nowMs());
    return silentMin !== undefined ? "silent" : frozen === true ? "frozen" : undefined;
  });
  const line = (): string => {
    const reading = lines().at(-1);
    if (reading === undefined) return "";
    const { source, atMs } = reading;
    const read = text().read(source, atMs, (board.nowMs() - atMs) / MIN_MS);
    const is = trouble();
    return is === undefined ? read : `${read} ${text().trouble[is]}`;
  };
  return (
    <li class="card" data-trouble={trouble()}>
      <strong>{props.place.name}</strong>
      <span>{line()}</span>
    </li>
  );
}

function Broker(props: { mqtt: MqttSettings; places: readonly Place[] }) {
  const { words } = usePhone();
  const text = () => words().room.hygrometers;
  const answer = createAnswer<SensorsAnswer>(
    () => "sensors",
    ASK_EVERY_MS,
    () => props.mqtt,
  );
  const status = (): string => {
    const given = answer();
    if (given === undefined) return text().asking;
    if (!given.ok) return askFaultWords(words(), given.fault);
    const { connected, lastMessageAtMs, error } = given.value;
    if (!connected) return text().notConnected(error);
    return lastMessageAtMs === undefined ? text().nothingHeard : text().lastMessage(lastMessageAtMs);
  };
  const heard = createMemo(() => {
    const given = answer();
    return given?.ok === true ? given.value.heard : [];
  });
  // Rows hang on names, so that an answer with news is written into the rows that are there.
  const names = createMemo(
    () =>
      heard()
        .map(({ match }) => match)
        .toSorted(),
    [],
    alike,
  );
  return (
    <>
      <p role="status">
        {props.mqtt.url} · {props.mqtt.topic}
        <br />
        <strong>{status()}</strong>
      </p>
      <ul class="cards">
        <For each={names()}>
          {(name) => (
            <Show when={heard().find(({ match }) => match === name)}>
              {(one) => <Heard heard={one()} mqtt={props.mqtt} places={props.places} />}
            </Show>
          )}
        </For>
      </ul>
    </>
  );
}

/** One hygrometer that is heard: what it said, and one tap that says where it hangs. */
function Heard(props: {
  heard: SensorsAnswer["heard"][number];
  mqtt: MqttSettings;
  places: readonly Place[];
}) {
  const { act, words } = usePhone();
  const text = () => words().room.hygrometers;
  const [isChoosing, setChoosing] = createSignal(false);
  const mapped = createMemo(() => {
    const placeId = props.mqtt.places.find(({ match }) => match === props.heard.match)?.placeId;
    return props.places.find(({ id }) => id === placeId);
  });
  const hangsAt = (placeId: PlaceId, name: string): void => {
    const others = props.mqtt.places.filter(({ match }) => match !== props.heard.match);
    const mqtt = { ...props.mqtt, places: [...others, { match: props.heard.match, placeId }] };
    if (act({ type: "set-kitchen", settings: { mqtt } }, text().placed(props.heard.match, name)))
      setChoosing(false);
  };
  const asks = (): boolean => isChoosing() || props.heard.outcome === "no such place";
  return (
    <li class="card heard" data-outcome={props.heard.outcome}>
      <strong>{props.heard.match}</strong>
      <span>
        {words().format.time(props.heard.atMs)} · {text().outcomes[props.heard.outcome]} {props.heard.result}
      </span>
      <Switch>
        <Match when={asks()}>
          <span id={`is-${props.heard.match}`}>{text().hangsAt}</span>
          <div class="choices" role="group" aria-labelledby={`is-${props.heard.match}`}>
            <For each={props.places}>
              {(place) => (
                <button
                  type="button"
                  aria-pressed={mapped()?.id === place.id}
                  onClick={() => hangsAt(place.id, place.name)}
                >
                  {place.name}
                </button>
              )}
            </For>
          </div>
        </Match>
        <Match when={!asks()}>
          <button type="button" class="small" onClick={() => setChoosing(true)}>
            {mapped() === undefined ? text().sayWhere : text().change(mapped()?.name ?? "")}
          </button>
        </Match>
      </Switch>
    </li>
  );
}

function OverHttp(props: { place: string }) {
  const { words } = usePhone();
  const text = () => words().room.hygrometers;
  const origin = globalThis.location.origin;
  const line = (): string =>
    `curl ${origin}/api/readings -H 'authorization: Bearer TOKEN' -H 'content-type: application/json' -d '${JSON.stringify({ place: props.place, tempC: 22.4, rhPct: 47 })}'`;
  const join = `curl ${origin}/api/join -H 'content-type: application/json' -d '{"code":"JOIN CODE","name":"Rack A hygrometer","as":"sensor"}'`;
  return (
    <>
      <h2>{text().overHttp}</h2>
      <p>{text().oneLine}</p>
      <pre class="one-line">{line()}</pre>
      <p class="note">{text().token}</p>
      <pre class="one-line">{join}</pre>
    </>
  );
}
