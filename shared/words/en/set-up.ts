import type { SettingPath } from "#shared/kitchen/model/settings.ts";
import type { PlaceKind, ToolKind } from "#shared/kitchen/model/vocabulary.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { terms } from "./terms.ts";

/** What stands around a field. Its unit is its schema's unless told here. */
export interface FieldWords {
  label: string;
  unit?: string;
  hint?: string;
}

/** A tool's figures that a lead enters. */
export type ToolFigure = "airC" | "maxAirC" | "capS" | "coolDownMin" | "distanceCm" | "nozzleMm";

/** How fast air moves over trays, to choose from. */
export type AirOverTrays = "still" | "moving" | "fan" | "measured";

const TRAYS: Plural = { one: "tray", other: "trays" };

/** Setting up the kitchen, places and tools. */
export const setUp = (format: Formats) => ({
  steps: {
    label: "Steps",
    names: ["Kitchen", "Places", "Heat tools", "Icings", "First design"] as readonly string[],
    /** Of each step but the first. */
    notes: [
      "Where trays stand, and the air over them: it decides how fast they dry.",
      "What sets icing with heat. Leave it empty if you use none.",
      `Your ${format.units === "us" ? "colors" : "colours"}. Water by consistency is the kitchen's, unless an icing differs.`,
      "One design to begin with: its layers in the order you lay them.",
    ] as readonly string[],
    next: (name: string) => `Next: ${name}`,
    done: "Done: add the first order",
    back: "Back",
  },
  usualRoom: {
    start: "Start with a usual room",
    has: "two racks, a fan rack, a bench, a low oven, a hot-air tool, three icings, one design: change what differs",
    done: "A usual room is set up",
    names: {
      rackA: "Rack A",
      rackB: "Rack B",
      fanRack: "Fan rack",
      bench: "Bench",
      oven: "Low oven",
      hotAir: "Hot-air tool 1",
      cream: "cream",
      blue: "ink blue",
      green: "leaf",
      design: "Round with a border",
      outline: "Outline",
      flood: "Flood",
      border: "Border",
    },
  },
  /** The kitchen's settings, by where they stand. `people`: how many have joined. */
  settings: (people: number): Record<SettingPath, FieldWords> => ({
    name: { label: "The kitchen's name" },
    units: { label: "Units" },
    timeZone: { label: "Time zone", hint: "Taken from this phone at first." },
    opening: { label: "Opening hours", hint: "Closing before it opens is closing the next day." },
    "wall.diagonalCm": {
      label: "Wall screen, diagonal",
      unit: format.inch,
      hint: "Type is sized from this and the next.",
    },
    "wall.farthestM": { label: "Farthest reader of the wall" },
    "waterPct.outline": { label: "Water in outline", unit: "% of its mass" },
    "waterPct.top-coat": { label: "Water in top-coat", unit: "% of its mass" },
    "waterPct.flood": { label: "Water in flood", unit: "% of its mass" },
    "waterPct.detail": { label: "Water in detail", unit: "% of its mass" },
    densityKgM3: { label: "Icing's density" },
    wastePct: {
      label: "Icing left in bags and bowls",
      unit: "% of what is laid",
      hint: "Added to what is to be mixed.",
    },
    icingUseH: {
      label: "Icing is used within",
      unit: "h of mixing",
      hint: "By your kitchen's plan and local codes. Empty: each batch is given its own use-by.",
    },
    icingLimitC: { label: "Icing never hotter than" },
    sinkShare: { label: "Set a sinking section within", unit: "% of its skin time" },
    floodingMin: { label: "Flooding one layer of a tray takes" },
    packingMin: { label: "Packing an order takes" },
    hands: {
      label: "How many ice at once",
      unit: "people",
      hint: `Pick-ups are estimated from these and the opening hours. Empty: everyone who joined, ${format.number(people)} now.`,
    },
    icingChangeMin: { label: "Changing from one icing to another takes" },
    boxOf: { label: "Cookies to a box", hint: "Empty: not packed in boxes. An order may differ." },
    bestBeforeDays: {
      label: "Best before, after packing",
      unit: "days",
      hint: "By your kitchen's own rule and local codes. Empty: no such date on labels.",
    },
    labelText: {
      label: "On box labels: allergens and storage",
      hint: "Your own words, printed as they stand. Traytide checks none of it.",
    },
    toolIdleMin: { label: "Alert about a tool left on after" },
    houseRules: { label: "House rules for heat, one a line" },
    mqtt: { label: "By MQTT" },
  }),
  unitSystems: {
    metric: { name: "Metric", hint: "mm, g, mL, °C" },
    us: { name: "US", hint: "inches, cups, spoons, °F" },
  },
  opening: {
    none: "closed",
    from: (day: string) => `${day}, opens`,
    until: (day: string) => `${day}, closes`,
    missing: (field: string) =>
      `${field} is missing: give a time, or untick that day if the kitchen is closed.`,
  },
  moreSettings: "Icing, times and house rules",
  houseRules: {
    hint: (most: number, letters: number) =>
      `Shown after the usual cautions, which stay. At most ${most}, each ${letters} letters.`,
    tooMany: (most: number, letters: number) =>
      `House rules must be at most ${most}, each at most ${letters} letters.`,
  },
  saveAndGoOn: "Save and go on",
  kitchenSaved: "Kitchen saved",
  kind: "Kind",
  place: {
    none: "No places yet.",
    add: "Add a place",
    line: (kind: PlaceKind, capacity: number, airSpeedMs: number, setTempC: number | undefined) =>
      `${format.sentence(terms(format).placeKinds[kind])} · ${format.count(capacity, TRAYS)} · air ${format.number(airSpeedMs, 2)} m/s${setTempC === undefined ? "" : ` · ${format.temp(setTempC)}`}`,
    name: "Place's name",
    capacity: "Trays it holds",
    air: "Air over the trays",
    airs: { still: "Still", moving: "Moving", fan: "Fan", measured: "As measured" } satisfies Record<
      AirOverTrays,
      string
    >,
    airSpeed: "Air speed",
    setTemp: "Set to",
    airFrom: "Its air is read at",
    itself: "itself",
    airFromHint: "One hygrometer may serve several places.",
  },
  tool: {
    none: "No heat tools yet.",
    add: "Add a heat tool",
    kinds: {
      "hot-air": "Hot-air tool",
      oven: "Low oven",
      "warm-cabinet": "Warm cabinet",
    } satisfies Record<ToolKind, string>,
    line: (kind: string, airC: number, capMin: number) =>
      `${kind} · ${format.temp(airC)} · stop by ${format.span(capMin)} at most`,
    name: "Tool's name",
    figures: (kind: ToolKind): Record<ToolFigure, FieldWords> => ({
      airC: { label: "Air at the nozzle" },
      maxAirC: { label: "Never hotter than", hint: "A reading above this raises an alert." },
      capS: { label: kind === "hot-air" ? "Longest on one cookie" : "Longest for a tray" },
      coolDownMin: { label: "Cools down in" },
      distanceCm: { label: "Distance to the cookie" },
      nozzleMm: { label: "Nozzle width" },
    }),
    place: "Which place it is",
    placeHint: "Trays under it stand there, at the temperature the place is set to.",
    addPlaceFirst: (kind: ToolKind) =>
      `Add the ${kind === "oven" ? "oven" : "cabinet"} as a place first: trays stand in it.`,
    limitUnderAir: (airC: number) =>
      `“Never hotter than” must be at least ${format.temp(airC)}, the air it is set to.`,
  },
});
