import type { Words } from "#shared/words/words.ts";
import { asId, type PersonId, type PlaceId } from "#shared/ids.ts";
import { dayAndMinute } from "#shared/kitchen/model/calendar.ts";
import type { Person, Place, Tool } from "#shared/kitchen/model/vocabulary.ts";
import type { Settings } from "#shared/kitchen/model/settings.ts";
import { HOT_AIR_TOOL, OVEN_TOOL, TOOL_DEFAULTS } from "#shared/heat/tool.ts";
import { MIN_MS } from "#shared/time.ts";

/** What a simulated person does all day, and when. Minutes after midnight. */
export interface Worker {
  person: Person;
  does: "leads" | "decorates" | "packs";
  fromMin: number;
  toMin: number;
  breakMin: number;
  /** How long things take them, beside the usual. */
  pace: number;
}

/** Everything that stands in the invented kitchen before the first order. */
export interface House {
  settings: Settings;
  places: readonly Place[];
  tools: readonly Tool[];
  workers: readonly Worker[];
  /** One of them. */
  lead: Worker;
  /** How many times as large as the usual practice kitchen. */
  scale: number;
}

/** Trays alive in a kitchen of the usual size. */
export const USUAL_TRAYS = 44;

const OPEN_DAY = { fromMin: 6 * 60, toMin: 22 * 60 };

const PRACTICE_SETTINGS: Omit<Settings, "houseRules" | "labelText"> = {
  name: "The Net Loft",
  units: "metric",
  timeZone: "Europe/Dublin",
  opening: [OPEN_DAY, OPEN_DAY, OPEN_DAY, OPEN_DAY, OPEN_DAY, OPEN_DAY, OPEN_DAY],
  wall: { diagonalCm: 109, farthestM: 3 },
  waterPct: { outline: 15.5, "top-coat": 18.5, flood: 20, detail: 15.5 },
  densityKgM3: 1350,
  icingLimitC: 60,
  sinkShare: 0.3,
  floodingMin: 9,
  packingMin: 6,
  boxOf: 12,
  bestBeforeDays: 14,
  toolIdleMin: 3,
};

const [LEAD, PACKER, ...OTHERS] = (
  "Maren Bram Wren Ivo Tamsin Odile Jonty Signe Pia Corin Elowen Mattis Runa Hesper Osk Linnet Dov Asta " +
  "Perran Thea Ulf Merle Yann Sorrel Kit Brisa Aldo Freya Nils Posy Rafe Inga Tove Caspian Lowri Emrys Juno Hollis Vesna Orrin"
).split(" ") as [string, string, ...string[]];

/**
 * A kitchen for about so many trays alive, 10 to 600: at the usual size a lead, a packer and four decorators, in two
 * shifts that overlap or all in one.
 */
export function practiceHouse(words: Words["server"]["practice"], trays: number, shifts: 1 | 2 = 2): House {
  const scale = trays / USUAL_TRAYS;
  const many = (usual: number): number => Math.max(usual, Math.round(usual * scale));
  const place = (
    id: string,
    name: string,
    more: Pick<Place, "kind" | "airSpeedMs"> & Partial<Place>,
  ): Place => ({
    id: asId(id),
    name,
    capacity: many(16),
    ...more,
  });
  const rack = (letter: string): Place =>
    place(`rack-${letter.toLowerCase()}`, words.rack(letter), {
      kind: "rack",
      airSpeedMs: 0.15,
      ...(letter === "A" ? {} : { airFrom: RACK_A }),
    });
  const hotAir = Array.from({ length: many(2) }, (_, k): Tool => {
    const { kind, airC, maxAirC, capS, coolDownMin, nozzleMm } = HOT_AIR_TOOL;
    return {
      id: asId(`hot-air-${k + 1}`),
      name: words.hotAir(k + 1),
      kind,
      airC,
      maxAirC,
      capS,
      coolDownMin,
      nozzleMm,
      distanceCm: 13,
    };
  });
  const chamber = (id: string, kind: "oven" | "warm-cabinet", name: string, capS: number): Tool => {
    const { airC, maxAirC, coolDownMin } = TOOL_DEFAULTS[kind];
    return { id: asId(id), name, kind, placeId: asId(id), airC, maxAirC, capS, coolDownMin };
  };
  const lead = workerAs(LEAD, "leads", 0, shifts);
  return {
    scale,
    settings: { ...PRACTICE_SETTINGS, houseRules: words.houseRules, labelText: words.labelText },
    lead,
    places: [
      ...["A", "B", "C", "D"].map(rack),
      place("fan-rack", words.fanRack, { kind: "fan-rack", airSpeedMs: 2, capacity: many(20) }),
      place("cabinet", words.cabinet, {
        kind: "warm-cabinet",
        airSpeedMs: 2,
        capacity: many(10),
        setTempC: 38,
        airFrom: RACK_A,
      }),
      place("oven", words.oven, {
        kind: "oven",
        airSpeedMs: 0.8,
        capacity: many(2),
        setTempC: OVEN_TOOL.airC,
        airFrom: RACK_A,
      }),
      place("bench-1", words.bench(1), {
        kind: "bench",
        airSpeedMs: 0.15,
        capacity: many(6),
        airFrom: RACK_A,
      }),
      place("bench-2", words.bench(2), {
        kind: "bench",
        airSpeedMs: 0.15,
        capacity: many(6),
        airFrom: RACK_A,
      }),
    ],
    tools: [
      ...hotAir,
      chamber("oven", "oven", words.oven, OVEN_TOOL.capS),
      chamber("cabinet", "warm-cabinet", words.cabinet, 4 * 3600),
    ],
    workers: [
      lead,
      ...workersFor(Math.max(4, Math.round(trays / 11)), Math.max(1, Math.round(trays / 60)), shifts),
    ],
  };
}

/** Where hygrometers hang. */
export const RACK_A = asId<PlaceId>("rack-a");
export const FAN_RACK = asId<PlaceId>("fan-rack");

/** One half comes early, the other stays late; in between the kitchen is full. */
function workerAs(name: string, does: Worker["does"], k: number, shifts: 1 | 2): Worker {
  const isLate = shifts === 2 && k % 2 === 1;
  const early = shifts === 2 ? [6, 16.5] : [7, 19];
  const hours = { leads: [6.25, 18], packs: [9.5, 20.5], decorates: isLate ? [11.5, 22] : early }[does];
  return {
    person: {
      id: asId<PersonId>(name.toLowerCase().replaceAll(/\W/g, "-")),
      name,
      role: does === "leads" ? "lead" : "decorator",
    },
    does,
    fromMin: (hours[0] ?? 0) * 60,
    toMin: (hours[1] ?? 24) * 60,
    breakMin:
      does === "decorates"
        ? (isLate ? 17 * 60 : 10.5 * 60) + 35 * (Math.floor(k / 2) % 4)
        : does === "packs"
          ? 14.5 * 60
          : 12.75 * 60,
    pace: [0.95, 1.1, 1, 0.88, 1.06][k % 5] ?? 1,
  };
}

/** All but the lead. */
function workersFor(decorators: number, packers: number, shifts: 1 | 2): Worker[] {
  const names = Array.from({ length: decorators + packers - 1 }, (_, k) => {
    const round = Math.floor(k / OTHERS.length);
    const name = OTHERS[k % OTHERS.length] ?? "Ash";
    return round === 0 ? name : `${name} ${round + 1}`;
  });
  return [
    workerAs(PACKER, "packs", 0, shifts),
    ...names.slice(0, decorators).map((name, k) => workerAs(name, "decorates", k, shifts)),
    ...names.slice(decorators).map((name, k) => workerAs(name, "packs", k + 1, shifts)),
  ];
}

/** The moment of a minute after midnight, on the day of `dayMs` in the practice kitchen's time zone. */
export function atMinute(dayMs: number, minute: number): number {
  const now = dayAndMinute(dayMs, PRACTICE_SETTINGS.timeZone);
  return Math.floor(dayMs / MIN_MS) * MIN_MS + (minute - now.minute) * MIN_MS;
}

/** When the practice kitchen is first seen: early in the afternoon of a day, in its own time zone. */
export const firstSeenMs = (dayMs: number): number => atMinute(dayMs, 13 * 60 + 40);
