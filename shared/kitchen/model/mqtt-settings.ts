import * as v from "valibot";
import { line, oneOf } from "#shared/fields.ts";
import { PlaceId } from "#shared/ids.ts";

/** Where a figure stands in a message's JSON: names, or numbers of a list's items, with dots between. */
const jsonPath = v.pipe(
  line(100),
  v.regex(/^[^.]+(\.[^.]+)*$/, "must be a path such as temperature or data.temp_c"),
);

const ADDRESS = "must be mqtt:// or mqtts:// with a host name and perhaps a port, and no name or password";
const FILTER = "must be an MQTT topic: + stands for one whole level, # for all that follow, at the end only";

/**
 * The broker that hygrometers send to, and how their messages read: each one's JSON has temperature and humidity. A place is
 * the one a topic (or its last level, or the value at `placeField`) is mapped to, else the one of that name.
 */
export const MqttSettings = v.object({
  /** Credentials are not the kitchen's to keep: the server is given them where it runs. */
  url: v.pipe(
    line(200),
    v.regex(/^mqtts?:\/\/(\[[\da-f:]+\]|[\w.-]+)(:\d{1,5})?\/?$/i, ADDRESS),
    v.check((url) => Number(/:(\d+)\/?$/.exec(url)?.[1] ?? 1883) <= 65_535, ADDRESS),
  ),
  topic: v.pipe(line(200), v.check(isTopicFilter, FILTER)),
  tempField: jsonPath,
  rhField: jsonPath,
  placeField: v.optional(jsonPath),
  /** When it was measured: ISO 8601 with its zone, or s or ms since 1970. Without it a message counts as of its arrival. */
  timeField: v.optional(jsonPath),
  tempUnit: oneOf(["C", "F"]),
  places: v.pipe(
    v.array(v.object({ match: line(200), placeId: PlaceId })),
    v.maxLength(50, "must be at most 50 places"),
  ),
});
export type MqttSettings = v.InferOutput<typeof MqttSettings>;

/** MQTT 3.1.1 §4.7.1: a wildcard takes a whole level, and # only the last. */
function isTopicFilter(topic: string): boolean {
  return topic
    .split("/")
    .every(
      (level, k, levels) =>
        !/[+#\0]/.test(level) || level === "+" || (level === "#" && k === levels.length - 1),
    );
}
