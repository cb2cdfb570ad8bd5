import { For, Match, Show, Switch, createMemo, createSignal } from "solid-js";
import { airTrouble } from "#shared/drying/air-record/readings.ts";
import type { PlaceId } from "#shared/ids.ts";
import { byName, sortedByName } from "#shared/kitchen/model/by-name.ts";
import type { PlaceOutlook } from "#shared/kitchen/model/forecast.ts";
import type { MqttSettings } from "#shared/kitchen/model/mqtt-settings.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import { clockTime, listed } from "#shared/words/wording.ts";
import type { SensorsAnswer } from "#shared/protocol/readings.ts";
import { formatSpan } from "#shared/units.ts";
import { createAnswer } from "#phone/ui/answer.ts";
import { askFaultWords } from "#phone/ui/ask.ts";
import { MqttForm } from "./mqtt-form.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { sameList } from "#phone/ui/same-list.ts";
import { MIN_MS } from "#shared/time.ts";

const ASK_EVERY_MS = 5000;

/** Where the air's figures come from: each place's reading, the broker and who is heard there, and the line for HTTP. */
export function Hygrometers() {
  const { board } = usePhone();
  const [isEditing, setEditing] = createSignal(false);
  const mqtt = createMemo(() => board.kitchen().settings.mqtt ?? undefined);
  const places = createMemo(() => sortedByName(board.kitchen().places));
  const isRead = ({ id }: Place): boolean => (board.kitchen().readings[id]?.length ?? 0) > 0;
  const read = createMemo(() => places().filter(isRead));
  /** The others, by whose hygrometer they go. */
  const unread = createMemo(() =>
    [...byName(places(), ({ airFrom }) => airFrom ?? "")].flatMap(([from, all]) => {
      const names = all.filter((place) => !isRead(place)).map(({ name }) => name);
      const source = board.kitchen().places[from]?.name;
      const go = names.length === 1 ? "goes" : "go";
      const by = source === undefined ? "what was read last in the room" : `${source}'s hygrometer`;
      return names.length === 0 ? [] : [`${listed(names)} ${go} by ${by}.`];
    }),
  );
  return (
    <>
      <h2>Places</h2>
      <ul class="cards">
        <For
          each={read()}
          fallback={<li class="quiet">No place was ever read: forecasts assume a usual room.</li>}
        >
          {(place) => <PlaceReadings place={place} />}
        </For>
      </ul>
      <For each={unread()}>{(line) => <p class="note">{line}</p>}</For>
      <h2>By MQTT</h2>
      <Show when={!isEditing()} fallback={<MqttForm settings={mqtt()} onDone={() => setEditing(false)} />}>
        <Show
          when={mqtt()}
          fallback={<p class="quiet">Hygrometers that send to a broker can be listened to here.</p>}
        >
          {(mqtt) => <Broker mqtt={mqtt()} places={places()} />}
        </Show>
        <button type="button" class="plain wide" onClick={() => setEditing(true)}>
          {mqtt() === undefined ? "Listen to a broker" : "Change the broker"}
        </button>
      </Show>
      <OverHttp place={(read()[0] ?? places()[0])?.name ?? "Rack A"} />
    </>
  );
}

/** Whether a place's hygrometer speaks, is silent, or stuck. */
function PlaceReadings(props: { place: Place }) {
  const { board, zone } = usePhone();
  const lines = createMemo(() => board.kitchen().readings[props.place.id] ?? []);
  const trouble = createMemo(() => {
    const { silentMin, frozen } = airTrouble(lines(), board.nowMs());
    return silentMin !== undefined ? "silent" : frozen === true ? "frozen" : undefined;
  });
  const words = (): string => {
    const reading = lines().at(-1);
    if (reading === undefined) return "";
    const when = `${clockTime(reading.atMs, zone())}, ${formatSpan((board.nowMs() - reading.atMs) / MIN_MS)} ago`;
    return `${READ_BY[reading.source]} ${when}. ${troubleWords(trouble())}`;
  };
  return (
    <li class="place-card" data-trouble={trouble()}>
      <strong>{props.place.name}</strong>
      <span>{words()}</span>
    </li>
  );
}

const READ_BY = { sensor: "Last heard", practice: "Last heard", typed: "Typed in" } as const;

const troubleWords = (trouble: PlaceOutlook["trouble"]): string => {
  if (trouble === "silent")
    return "Silent for over 30 min: is it on, and in reach? Times here are less sure.";
  if (trouble === "frozen")
    return "The same figures for hours: it seems stuck. Take its battery out for a moment. Times here are less sure.";
  return "";
};

function Broker(props: { mqtt: MqttSettings; places: readonly Place[] }) {
  const { zone, words } = usePhone();
  const answer = createAnswer<SensorsAnswer>(
    () => "sensors",
    ASK_EVERY_MS,
    () => props.mqtt,
  );
  const status = (): string => {
    const given = answer();
    if (given === undefined) return "Asking the server…";
    if (!given.ok) return askFaultWords(words(), given.fault);
    const { connected, lastMessageAtMs, error } = given.value;
    if (!connected) return `Not connected. ${error ?? "Trying."}`;
    if (lastMessageAtMs === undefined) return "Connected. Nothing heard yet on this topic.";
    return `Connected. Last message ${clockTime(lastMessageAtMs, zone())}.`;
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
    { equals: sameList },
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
  const { act, zone } = usePhone();
  const [isChoosing, setChoosing] = createSignal(false);
  const mapped = createMemo(() => {
    const placeId = props.mqtt.places.find(({ match }) => match === props.heard.match)?.placeId;
    return props.places.find(({ id }) => id === placeId);
  });
  const hangsAt = (placeId: PlaceId, name: string): void => {
    const others = props.mqtt.places.filter(({ match }) => match !== props.heard.match);
    const mqtt = { ...props.mqtt, places: [...others, { match: props.heard.match, placeId }] };
    if (act({ type: "set-kitchen", settings: { mqtt } }, `${props.heard.match} is ${name}`))
      setChoosing(false);
  };
  const asks = (): boolean => isChoosing() || props.heard.outcome === "no such place";
  return (
    <li class="heard" data-outcome={props.heard.outcome}>
      <strong>{props.heard.match}</strong>
      <span>
        {clockTime(props.heard.atMs, zone())} · {OUTCOME[props.heard.outcome]} {props.heard.result}
      </span>
      <Switch>
        <Match when={asks()}>
          <span id={`is-${props.heard.match}`}>This one is</span>
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
            {mapped() === undefined ? "Say where it hangs" : `It hangs at ${mapped()?.name ?? ""}: change`}
          </button>
        </Match>
      </Switch>
    </li>
  );
}

const OUTCOME: Readonly<Record<SensorsAnswer["heard"][number]["outcome"], string>> = {
  taken: "taken:",
  "no such place": "not placed:",
  refused: "refused:",
  waiting: "waiting:",
};

function OverHttp(props: { place: string }) {
  const origin = globalThis.location.origin;
  const line = (): string =>
    `curl ${origin}/api/readings -H 'authorization: Bearer TOKEN' -H 'content-type: application/json' -d '${JSON.stringify({ place: props.place, tempC: 22.4, rhPct: 47 })}'`;
  const join = `curl ${origin}/api/join -H 'content-type: application/json' -d '{"code":"JOIN CODE","name":"Rack A hygrometer","as":"sensor"}'`;
  return (
    <>
      <h2>Over HTTP</h2>
      <p>One line a reading, at least every half hour:</p>
      <pre class="one-line">{line()}</pre>
      <p class="note">Its token comes from joining once, with the code on the server's screen:</p>
      <pre class="one-line">{join}</pre>
    </>
  );
}
