import type { Formats } from "#shared/words/formats.ts";

/** A figure in a hygrometer's message that is missing or cannot be; `found` as it stood there, absent where it is missing. */
export interface BadFigure {
  path: string;
  min: number;
  max: number;
  /** "°C", "°F" or "% RH". */
  unit: string;
  found: string | undefined;
}

const is = (found: string | undefined): string => `it is ${found ?? "missing"}`;

/** The hygrometers' broker and what each message came to. */
export const sensors = (format: Formats) => ({
  taken: (tempC: number, rhPct: number) => `${format.temp(tempC)}, ${format.number(rhPct, 1)} % RH.`,
  noPlace: (named: string) => `There is no place called ${format.name(named)}.`,
  keptByBroker: "Only an old message that the broker had kept, so far.",
  clockAhead: (min: number) => `Its clock is over ${min} min ahead: set it right.`,
  tooLong: (mostBytes: number, bytes: number) =>
    `The message must be at most ${mostBytes} bytes: it is ${bytes}.`,
  notJson: "The message is not JSON.",
  figure: ({ path, min, max, unit, found }: BadFigure) =>
    `${path} must be ${min} to ${max} ${unit}: ${is(found)}.`,
  time: (path: string, found: string | undefined) =>
    `${path} must be ISO 8601 with its zone, or s or ms since 1970: ${is(found)}.`,
  noName: (path: string | undefined, most: number) =>
    `${path ?? "place"} must name a place, in at most ${most} characters.`,
  closed: "the broker closed the connection",
  subscription: (topic: string, cause: string) =>
    `the broker does not take the subscription to ${topic}: ${cause}`,
  login:
    "the broker refuses the login: set TRAYTIDE_MQTT_USERNAME and TRAYTIDE_MQTT_PASSWORD where the server runs",
  /** Lines for whoever looks after the server. */
  listening: "Hygrometers by MQTT: listening again.",
  retrying: (why: string) => `Hygrometers by MQTT: ${why}. Trying again.`,
  refused: (from: string, why: string) => `Hygrometers by MQTT: ${JSON.stringify(from)} is refused: ${why}`,
});
