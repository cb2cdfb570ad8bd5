import type {
  Consistency,
  PlaceKind,
  ProblemKind,
  Role,
  Stage,
  ToolKind,
  TouchFinding,
} from "#shared/kitchen/model/vocabulary.ts";
import type { PlaceFact } from "#shared/kitchen/tray/ready.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { fewOf, sayNumbers } from "#shared/words/tray-numbers.ts";

const COOKIES: Plural = { one: "cookie", other: "cookies" };
const TRAYS: Plural = { one: "tray", other: "trays" };

/** Words that many screens share. */
export const terms = (format: Formats) => ({
  stages: {
    queued: "Not started",
    flooding: "Flooding",
    "heat-set": "Heat-set",
    crusting: "Crusting",
    "full-dry": "Drying through",
    packed: "Packed",
  } satisfies Record<Stage, string>,
  consistencies: {
    outline: "outline",
    "top-coat": "top-coat",
    flood: "flood",
    detail: "detail",
  } satisfies Record<Consistency, string>,
  placeKinds: {
    rack: "rack",
    "fan-rack": "fan rack",
    "warm-cabinet": "warm cabinet",
    oven: "oven",
    bench: "bench",
  } satisfies Record<PlaceKind, string>,
  toolKinds: {
    "hot-air": "hot air",
    oven: "oven",
    "warm-cabinet": "warm cabinet",
  } satisfies Record<ToolKind, string>,
  roles: { lead: "lead", decorator: "decorator", wall: "wall", sensor: "sensor" } satisfies Record<
    Role,
    string
  >,
  findings: { "still wet": "Still wet", skinned: "Skinned", firm: "Firm" } satisfies Record<
    TouchFinding,
    string
  >,
  /** What each problem looks like, to choose by. */
  problems: {
    bled: `Bled: one ${format.units === "us" ? "color" : "colour"} ran into another`,
    sunk: "Sunk: the middle fell in",
    cracked: "Cracked",
    swollen: "Swollen by heat",
    dented: "Dented: touched while wet",
    smeared: "Smeared",
    burned: "Burned",
    broken: "Broken cookie",
  } satisfies Record<ProblemKind, string>,
  /** "12 cookies". */
  cookies: (count: number) => format.count(count, COOKIES),
  /** "3 trays". */
  trayCount: (count: number) => format.count(count, TRAYS),
  /** "tray 7", "trays 7 and 8", "trays 7, 8, 9 and 3 more". */
  trays: (numbers: readonly number[]) =>
    `${format.plural(numbers.length, TRAYS)} ${format.and(fewOf(numbers, (more) => `${more} more`))}`,
  /** "layer 2 (Sea glass)"; `layer` counts from 0. */
  layer: (layer: number, icing: string | undefined) =>
    `layer ${layer + 1}${icing === undefined ? "" : ` (${format.name(icing)})`}`,
  /** "Rack A · 3", "Rack A · 3–6", "Rack A, Rack C", "3 places". */
  place: ({ names, slots }: PlaceFact) => {
    if (names.length > 2) return `${names.length} places`;
    const named = names.length === 0 ? "no place" : names.map(format.name).join(", ");
    // No line breaks between a place and where in it.
    if (slots === undefined) return named;
    return `${named}\u00a0·\u00a0${typeof slots === "string" ? slots : sayNumbers(slots, 2)}`;
  },
});
