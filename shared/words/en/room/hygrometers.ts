import type { MqttSettings } from "#shared/kitchen/model/mqtt-settings.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { FieldWords } from "#shared/words/en/set-up.ts";

/** Where the air's figures come from. */
export const hygrometers = (format: Formats) => ({
  places: "Places",
  noneRead: "No place was ever read: forecasts assume a usual room.",
  /** Places without a hygrometer of their own; `source` has the one they go by. */
  goBy: (places: readonly string[], source: string | undefined) =>
    `${format.and(places.map(format.name))} ${places.length === 1 ? "goes" : "go"} by ${source === undefined ? "what was last read in the room" : `${format.name(source)}'s hygrometer`}.`,
  read: (source: "sensor" | "practice" | "typed", atMs: number, agoMin: number) =>
    `${source === "typed" ? "Typed in" : "Last heard"} ${format.time(atMs)}, ${format.span(agoMin)} ago.`,
  trouble: {
    silent: "Silent for over 30 min: is it on, and in reach? Times here are less sure.",
    frozen:
      "The same figures for hours: it seems stuck. Take its battery out for a moment. Times here are less sure.",
  },
  noBroker: "Hygrometers that send to a broker can be listened to here.",
  listen: "Listen to a broker",
  changeBroker: "Change the broker",
  asking: "Asking the server…",
  notConnected: (why: string | undefined) => `Not connected. ${why ?? "Trying."}`,
  nothingHeard: "Connected. Nothing heard yet on this topic.",
  lastMessage: (atMs: number) => `Connected. Last message ${format.time(atMs)}.`,
  /** What became of what one said. */
  outcomes: {
    taken: "taken:",
    "no such place": "not placed:",
    refused: "refused:",
    waiting: "waiting:",
  },
  hangsAt: "This one hangs at",
  sayWhere: "Say where it hangs",
  change: (place: string) => `It hangs at ${format.name(place)}: change`,
  placed: (hygrometer: string, place: string) => `${format.name(hygrometer)} is ${format.name(place)}`,
  overHttp: "Over HTTP",
  oneLine: "One line a reading, at least every half hour:",
  token: "Its token comes from joining once, with the code on the server's screen:",
  broker: {
    fields: {
      url: {
        label: "Broker's address",
        hint: "mqtt://192.168.1.20 or mqtts:// with TLS. A login is given to the server where it runs: TRAYTIDE_MQTT_USERNAME and TRAYTIDE_MQTT_PASSWORD.",
      },
      topic: { label: "Topic", hint: "+ stands for one level, # at the end for all that follow." },
      tempField: {
        label: "Field with the temperature",
        hint: "In each message's JSON, with dots between levels: data.temp_c",
      },
      rhField: { label: "Field with the humidity" },
      tempUnit: { label: "The temperature is in" },
      placeField: {
        label: "Field with the place's name",
        hint: "Empty: the last level of the topic names the place.",
      },
      timeField: {
        label: "Field with the time",
        hint: "Empty: a message counts from its arrival.",
      },
      places: { label: "Names, times and places" },
    } satisfies Record<keyof MqttSettings, FieldWords> as Record<keyof MqttSettings, FieldWords>,
    mapping: (index: number) => `Name ${index + 1}`,
    match: "Its topic or name",
    place: "hangs at",
    addName: "Add a name",
    save: "Save and listen",
    saved: "Broker saved",
    stop: "Stop listening",
    stopped: "No longer listening",
  },
});
