import { decimalOf } from "#shared/decimal.ts";
import { READING_RANGE } from "#shared/drying/air-record/readings.ts";
import type { MqttSettings } from "#shared/kitchen/model/mqtt-settings.ts";
import { ok, type Outcome, refused } from "#shared/outcome.ts";
import type { Say } from "#server/words.ts";
import { celsiusToFahrenheit, fahrenheitToCelsius } from "#shared/units.ts";

/** What one message says. */
export interface Measured {
  /** The mapped place's id, or the name the hygrometer goes by. */
  place: string;
  tempC: number;
  rhPct: number;
  /** By the hygrometer's own clock, real time. */
  measuredAtMs?: number;
}

/** Longest message looked at, and the longest name a mapping can name. */
const BYTES_MOST = 4096;
export const NAME_MOST = 200;

/** The name that a mapping to a place would name: the value at `placeField`, else the topic; and what the message says. */
export function readMessage(
  settings: MqttSettings,
  topic: string,
  payload: Buffer,
): { match: string; said: Outcome<Measured, Say> } {
  const body = parse(payload);
  if (!body.ok) return { match: topic, said: body };
  const named = settings.placeField === undefined ? undefined : at(body.value, settings.placeField);
  const isName = (typeof named === "string" && named.length <= NAME_MOST) || typeof named === "number";
  const name = isName ? String(named) : undefined;
  return { match: name ?? topic, said: measured(settings, body.value, placeOf(settings, topic, name)) };
}

function parse(payload: Buffer): Outcome<unknown, Say> {
  if (payload.length > BYTES_MOST)
    return refused(({ server }) => server.sensors.tooLong(BYTES_MOST, payload.length));
  try {
    return ok(JSON.parse(payload.toString("utf8")));
  } catch {
    return refused(({ server }) => server.sensors.notJson);
  }
}

/** The value at a path of names with dots between; own properties only. */
function at(body: unknown, path: string): unknown {
  return path
    .split(".")
    .reduce(
      (value: unknown, name) =>
        typeof value === "object" && value !== null && Object.hasOwn(value, name)
          ? (value as Record<string, unknown>)[name]
          : undefined,
      body,
    );
}

/** A mapped topic counts before a mapped last level, that before a mapped name, that before the name itself. */
function placeOf(settings: MqttSettings, topic: string, name: string | undefined): string | undefined {
  const lastLevel = topic.slice(topic.lastIndexOf("/") + 1);
  const mapped = [topic, lastLevel, name]
    .map((called) => settings.places.find(({ match }) => match === called))
    .find((place) => place !== undefined);
  return mapped?.placeId ?? (settings.placeField === undefined ? lastLevel : name);
}

function measured(settings: MqttSettings, body: unknown, place: string | undefined): Outcome<Measured, Say> {
  const isFahrenheit = settings.tempUnit === "F";
  const degrees = (tempC: number): number => (isFahrenheit ? celsiusToFahrenheit(tempC) : tempC);
  const { tempC: temp, rhPct: rh } = READING_RANGE;
  const temperature = figure(
    body,
    settings.tempField,
    degrees(temp.min),
    degrees(temp.max),
    `°${settings.tempUnit}`,
  );
  if (!temperature.ok) return temperature;
  const humidity = figure(body, settings.rhField, rh.min, rh.max, "% RH");
  if (!humidity.ok) return humidity;
  const time = settings.timeField === undefined ? undefined : at(body, settings.timeField);
  const measuredAtMs = time === undefined ? undefined : momentOf(time);
  const { timeField, placeField } = settings;
  if (timeField !== undefined && measuredAtMs === undefined)
    return refused(({ server }) => server.sensors.time(timeField, shown(time)));
  if (place === undefined) return refused(({ server }) => server.sensors.noName(placeField, NAME_MOST));
  const tempC = isFahrenheit ? fahrenheitToCelsius(temperature.value) : temperature.value;
  return ok({
    place,
    tempC: Math.round(tempC * 100) / 100,
    rhPct: humidity.value,
    ...(measuredAtMs !== undefined && { measuredAtMs }),
  });
}

/** A number, or decimal text, within its range. */
function figure(body: unknown, path: string, min: number, max: number, unit: string): Outcome<number, Say> {
  const raw = at(body, path);
  const value = typeof raw === "string" ? decimalOf(raw) : raw;
  if (typeof value === "number" && value >= min && value <= max) return ok(value);
  const bad = { path, min, max, unit, found: shown(raw) };
  return refused(({ server }) => server.sensors.figure(bad));
}

/** An ISO 8601 moment with its zone is shorter than this. */
const MOMENT_MOST = 40;
/** Numbers below this are seconds: as milliseconds they would lie before March 1973. */
const SECONDS_BELOW = 1e11;

function momentOf(time: unknown): number | undefined {
  if (typeof time === "number") return Math.round(time < SECONDS_BELOW ? time * 1000 : time);
  const isZoned =
    typeof time === "string" &&
    time.length <= MOMENT_MOST &&
    /^\d{4}-\d\d-\d\dT[\d:.]+(Z|[+-]\d\d:?\d\d)$/.test(time);
  const atMs = isZoned ? Date.parse(time) : Number.NaN;
  return Number.isNaN(atMs) ? undefined : atMs;
}

/** What was found, short enough to show; undefined where there is nothing. */
function shown(value: unknown): string | undefined {
  if (value === undefined) return undefined;
  const text = JSON.stringify(value);
  return text.length <= 40 ? text : `${text.slice(0, 40)}…`;
}
