import type { ToolKind } from "#shared/heat/tool.ts";

/** Where a caution comes from; `shared/words` names it. */
export type CautionSource =
  | "practice"
  | "memory"
  | "osha-kitchen"
  | "worksafe-nz"
  | "prudent"
  | "prudent-and-memory"
  | "cfr-cords"
  | "en-563"
  | "en-563-and-osha"
  | "first-aid"
  | "food-code-raw-egg"
  | "food-code-cold"
  | "food-code-time"
  | "drying-model"
  | "falcpa"
  | "eu-1169";

/** Every caution with where it comes from; `shared/words` has its sentence, of at most 70 characters. */
export const CAUTION_SOURCES = {
  "cord-and-plug": "cfr-cords",
  "paper-out-of-jet": "memory",
  "no-spirits-near": "prudent-and-memory",
  "keep-moving": "practice",
  "never-point": "prudent",
  "stay-with-it": "prudent",
  "nozzle-hot": "prudent",
  "unplug-to-store": "prudent",
  "read-oven-first": "practice",
  "stand-aside": "worksafe-nz",
  "dry-mitts": "osha-kitchen",
  "tray-metal-burns": "en-563",
  "no-tray-across": "worksafe-nz",
  "say-hot-tray": "memory",
  "no-kill-step": "memory",
  "fan-free": "memory",
  "paper-off-heater": "memory",
  "no-spirits-inside": "memory",
  "warm-metal-burns": "en-563",
  "no-cold-store": "memory",
  "last-out-off": "practice",
  // One line for each moment of a heat-set.
  "hot-air-before": "memory",
  "hot-air-during": "practice",
  "hot-air-after": "prudent",
  "oven-before": "practice",
  "oven-after": "osha-kitchen",
  "cabinet-before": "memory",
  "cabinet-during": "practice",
  "cabinet-after": "practice",
  // What to look for on the icing while heat is on it.
  "stop-at-dulling": "practice",
  "too-much-heat-cracks": "practice",
  "patch-can-burst": "practice",
  "gloss-is-normal": "practice",
  // First aid.
  "cool-water": "first-aid",
  "rings-off": "first-aid",
  "cover-it": "first-aid",
  "no-ice": "first-aid",
  "medical-help": "first-aid",
  "in-doubt": "memory",
  // Electricity.
  "cord-each-use": "cfr-cords",
  "damaged-out": "cfr-cords",
  "dry-hands": "cfr-cords",
  "ground-fault": "prudent",
  "pull-the-plug": "memory",
  // Egg.
  "pasteurised-egg": "food-code-raw-egg",
  "egg-kept-cold": "food-code-cold",
  "left-out": "food-code-time",
  "oven-no-egg-safety": "memory",
  "water-activity": "drying-model",
  // Allergens.
  "name-allergens": "falcpa",
  traces: "memory",
  "read-labels": "memory",
  "not-sure": "memory",
} as const satisfies Record<string, CautionSource>;
export type CautionId = keyof typeof CAUTION_SOURCES;

/** Lines to be read together. Whose word comes first is shown with every card. */
export type CardId = ToolKind | "overheating" | "burn" | "electricity" | "eggs" | "allergens";

export const CARDS: Readonly<Record<CardId, readonly CautionId[]>> = {
  "hot-air": [
    "cord-and-plug",
    "paper-out-of-jet",
    "no-spirits-near",
    "keep-moving",
    "never-point",
    "stay-with-it",
    "nozzle-hot",
    "unplug-to-store",
  ],
  oven: [
    "read-oven-first",
    "stand-aside",
    "dry-mitts",
    "tray-metal-burns",
    "no-tray-across",
    "say-hot-tray",
    "no-kill-step",
  ],
  "warm-cabinet": [
    "cord-and-plug",
    "fan-free",
    "paper-off-heater",
    "no-spirits-inside",
    "warm-metal-burns",
    "no-cold-store",
    "last-out-off",
  ],
  overheating: ["stop-at-dulling", "too-much-heat-cracks", "patch-can-burst", "gloss-is-normal"],
  burn: ["cool-water", "rings-off", "cover-it", "no-ice", "medical-help", "in-doubt"],
  electricity: ["cord-each-use", "damaged-out", "dry-hands", "ground-fault", "pull-the-plug"],
  eggs: ["pasteurised-egg", "egg-kept-cold", "left-out", "oven-no-egg-safety", "water-activity"],
  allergens: ["name-allergens", "traces", "read-labels", "not-sure"],
};

/** The lead's own rules, shown after a tool's card; blank ones are left out. They add to ours and never replace them. */
export const houseRulesOf = (houseRules: readonly string[]): string[] =>
  houseRules.map((rule) => rule.trim()).filter((rule) => rule !== "");

/** When a single line is shown: as a heat-set is about to start, while it runs, once it has ended. */
export type Moment = "before" | "during" | "after";

/** One line for each moment, for people who have read the card this shift. */
export const REMINDERS: Readonly<Record<ToolKind, Readonly<Record<Moment, CautionId>>>> = {
  "hot-air": { before: "hot-air-before", during: "hot-air-during", after: "hot-air-after" },
  oven: { before: "oven-before", during: "stand-aside", after: "oven-after" },
  "warm-cabinet": { before: "cabinet-before", during: "cabinet-during", after: "cabinet-after" },
};

/** Where it says that a tray is hot. */
export const HOT_TRAY_SOURCE: CautionSource = "en-563-and-osha";
/** Where it says what of a tool stays hot. */
export const COOL_DOWN_SOURCES: Readonly<Record<ToolKind, CautionSource>> = {
  "hot-air": "prudent",
  oven: "memory",
  "warm-cabinet": "memory",
};

/** What the law lists by name: the American list quoted, the European one from memory. */
export const ALLERGENS = {
  us: {
    names: ["milk", "egg", "fish", "crustaceans", "tree nuts", "peanuts", "wheat", "soy", "sesame"],
    source: "falcpa",
  },
  eu: {
    names: [
      "gluten cereals",
      "crustaceans",
      "egg",
      "fish",
      "peanuts",
      "soy",
      "milk",
      "nuts",
      "celery",
      "mustard",
      "sesame",
      "sulphites",
      "lupin",
      "molluscs",
    ],
    source: "eu-1169",
  },
} as const;
export type AllergenName = (typeof ALLERGENS)[keyof typeof ALLERGENS]["names"][number];
