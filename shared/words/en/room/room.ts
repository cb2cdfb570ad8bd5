import type { Band } from "#shared/drying/uncertainty/band.ts";
import type { Climate } from "#shared/drying/air-record/measured-air.ts";
import type { PlaceForecast } from "#shared/kitchen/model/forecast.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { hygrometers } from "./hygrometers.ts";
import { drying } from "#shared/words/en/drying.ts";

const PEOPLE: Plural = { one: "person", other: "people" };

/** What of a place's air is known, for its line. */
export interface PlaceReading {
  air: (Climate & { atMs: number }) | undefined;
  /** The place it was read at, where that is another. */
  readAt: string | undefined;
  trouble: PlaceForecast["trouble"];
  isMeasured: boolean;
}

/** The room: its air, its people and this phone. */
export const room = (format: Formats) => ({
  allAlerts: "All alerts",
  dayLink: "Day sheet: air, problems, hands",
  noPlaces: "No places yet. A lead adds them under Kitchen.",
  kitchen: "Kitchen",
  people: "People",
  leave: "Leave this kitchen on this phone",
  place: {
    trays: (count: number, capacity: number) => `${format.number(count)} of ${format.number(capacity)} trays`,
    film: (thicknessMm: number, consistency: Consistency, skin: Band, dryThrough: Band) => {
      const skins =
        "never" in skin
          ? `never skins: ${drying(format).why(skin.never)}`
          : `skins in ${format.bandOf(skin)}`;
      const dries =
        "never" in dryThrough
          ? `never dries through: ${drying(format).why(dryThrough.never)}`
          : `dries through in ${format.bandOf(dryThrough)}`;
      return `A ${format.length(thicknessMm)} ${consistency} ${skins}, ${dries}`;
    },
    /** In a few words, of a place in a list. */
    airShort: (air: PlaceReading["air"]) =>
      air === undefined ? "air not read" : `${format.temp(air.tempC)} · ${format.percent(air.rhPct)} RH`,
    air: ({ air, readAt, trouble, isMeasured }: PlaceReading) => {
      if (air === undefined) return "No air reading yet: forecasts assume a usual room.";
      const from = readAt === undefined ? "" : `, read at ${format.name(readAt)}`;
      const read = `${format.temp(air.tempC)} · ${format.percent(air.rhPct)} RH at ${format.time(air.atMs)}${from}`;
      if (trouble === "frozen") return `${read}. The hygrometer seems stuck: bands are wider.`;
      if (trouble === "silent") return `${read}. Nothing since: bands are wider.`;
      return isMeasured ? read : `${read}, as last known`;
    },
    setTo: (tempC: number) => `set to ${format.temp(tempC)}`,
    enterReading: "Enter a reading",
  },
  reading: {
    title: (place: string) => `Air at ${format.name(place)}`,
    temp: "Temperature",
    humidity: "Humidity",
    bothNeeded: "Both the temperature and the humidity are needed.",
    enter: "Enter",
    done: (place: string) => `${format.name(place)} read`,
  },
  person: {
    you: " (you)",
    bench: "bench screen",
    noPhone: "no phone connected",
    canBeAlerted: "connected, can be alerted",
    cannotBeAlerted: "connected, cannot be alerted",
    makeLead: "Make lead",
    makeDecorator: "Make decorator",
    isLead: (name: string) => `${format.name(name)} is a lead`,
    isDecorator: (name: string) => `${format.name(name)} is a decorator`,
    setHours: "Hours…",
    setHoursOf: (name: string) => `Hours of ${format.name(name)}`,
    hoursSet: (name: string) => `Hours of ${format.name(name)} saved`,
    ownHours: "hours of their own",
    hours: {
      whole: "All opening hours",
      own: "Hours of their own",
      label: "Works",
      hint: "Within the opening hours. The day's plan counts on them then, and not otherwise.",
      none: "off",
      from: (day: string) => `${day}, from`,
      until: (day: string) => `${day}, until`,
      missing: (field: string) => `${field} is missing: give a time, or untick that day if they are off.`,
    },
    remove: (name: string) => `Remove ${name}`,
    removed: (name: string) => `${format.name(name)} removed`,
  },
  removePeople: {
    start: "Remove people…",
    explained: "Their phones must join again. What they did keeps their name.",
    tickIdle: (count: number) => `Tick the ${format.number(count)} with nothing on the board`,
    confirm: (count: number) => `Remove ${format.count(count, PEOPLE)}`,
    removed: (count: number) => `${format.number(count)} people removed`,
  },
  hygrometers: hygrometers(format),
});
