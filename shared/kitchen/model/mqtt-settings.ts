import * as v from "valibot";
import { line, list, mustBe, oneOf } from "#shared/fields.ts";
import { PlaceId } from "#shared/ids.ts";

/** Where a figure stands in a message's JSON: names, or numbers of a list's items, with dots between. */
const jsonPath = v.pipe(line(100), v.regex(/^[^.]+(\.[^.]+)*$/, mustBe("a JSON path")));

const ADDRESS = mustBe("a broker's address");
const FILTER = mustBe("an MQTT topic");

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
  places: list(v.object({ match: line(200), placeId: PlaceId }), "places", 50, 0),
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
