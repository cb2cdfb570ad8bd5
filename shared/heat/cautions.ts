import type { ToolKind } from "#shared/heat/tool.ts";

/** One caution: what to do, in at most 70 characters, and where it comes from. */
export interface CautionLine {
  text: string;
  source: string;
}

/** Lines to be read together. `deference` is shown with them, always. */
export interface CautionCard {
  title: string;
  lines: readonly CautionLine[];
  deference: string;
}

/** Goes with everything said of heat, electricity, eggs or allergens; the short form with a single line. */
export const DEFERENCE =
  "Only a reminder: your kitchen's own plan, local codes and licensed practice come first.";
export const DEFERENCE_SHORT = "Your kitchen's plan and local codes come first.";

const PRACTICE = "common practice, no source";
const MEMORY = "from memory";
const OSHA_KITCHEN = "OSHA young-worker guidance, restaurant kitchens";
const WORKSAFE_NZ = "WorkSafe New Zealand, kitchen burns";
const PRUDENT = "Prudent Practices §7.C.5.6";
const CFR_CORDS = "29 CFR 1910.334";
const EN_563 = "EN 563:1994, now ISO 13732-1 (quoted)";
const FIRST_AID = "NHS and British Burn Association first aid";
const HOUSE = "house rule";

const from =
  (source: string) =>
  (text: string): CautionLine => ({ text, source });
const practice = from(PRACTICE);
const memory = from(MEMORY);
const prudent = from(PRUDENT);
const cords = from(CFR_CORDS);
const firstAid = from(FIRST_AID);

const card = (title: string, lines: readonly CautionLine[]): CautionCard => ({
  title,
  lines,
  deference: DEFERENCE,
});

const TOOL_CARDS: Readonly<Record<ToolKind, CautionCard>> = {
  "hot-air": card("Hot air on icing", [
    cords("Look over cord and plug. Dry hands at the plug."),
    memory("Paper, parchment, acetate and towels: out of the jet."),
    from(`${PRUDENT}; spirit-based colours from memory`)("No spirit-based colours or extracts near it."),
    practice("Hold it 13–15 cm (5–6 in) off and keep it moving."),
    prudent("Never point it at anyone. Never block its air inlet."),
    prudent("Stay with it while it runs and while it cools."),
    prudent("Nozzle and element stay hot after switch-off."),
    prudent("Unplug it and let it cool before you put it away."),
  ]),
  oven: card("Trays in a low oven", [
    practice("Read the oven's temperature before the tray goes in."),
    from(WORKSAFE_NZ)("Stand to one side as you open the door."),
    from(OSHA_KITCHEN)("Dry mitts on both hands: wet cloth lets heat through."),
    from(EN_563)("Tray metal at 65 °C (149 °F) burns in one second."),
    from(WORKSAFE_NZ)("No hot tray across a walkway or on the floor."),
    memory("Say “hot tray” as you carry it; set it down marked hot."),
    memory("Oven air this low sets icing. It makes no food safe."),
  ]),
  "warm-cabinet": card("Trays in the warm cabinet", [
    cords("Look over cord and plug. Dry hands at the plug."),
    memory("Leave the fan's inlet and outlet free."),
    memory("Keep paper, cloth and bags off the heater."),
    memory("No spirit-based colours or extracts inside."),
    from(EN_563)("Metal at 48 °C (118 °F) burns if held for 10 minutes."),
    memory("Warmth like this is no store for food to be kept cold."),
    practice("Last tray out: switch it off."),
  ]),
};

/** The full card for a tool, then the lead's own rules; blank rules are left out, and ours cannot be. */
export function cardFor(kind: ToolKind, houseRules: readonly string[]): CautionCard {
  const own = TOOL_CARDS[kind];
  const house = houseRules.map((rule) => rule.trim()).filter((rule) => rule !== "");
  return { ...own, lines: [...own.lines, ...house.map(from(HOUSE))] };
}

/** When a single line is shown: as a heat-set is about to start, while it runs, once it has ended. */
export type Moment = "before" | "during" | "after";

/** One line for each moment, for people who have read the card this shift. */
export const REMINDERS: Readonly<Record<ToolKind, Readonly<Record<Moment, CautionLine>>>> = {
  "hot-air": {
    before: memory("Cord sound, hands dry; paper, acetate, spirits well clear?"),
    during: practice("Keep it moving, 13–15 cm (5–6 in) off."),
    after: prudent("Stand it clear: the nozzle is still hot. Unplug it."),
  },
  oven: {
    before: practice("Oven at its set temperature? Dry mitts at hand?"),
    during: from(WORKSAFE_NZ)("Stand to one side as you open the door."),
    after: from(OSHA_KITCHEN)("Dry mitts. The tray stays hot longer than it looks."),
  },
  "warm-cabinet": {
    before: memory("Fan free, heater clear of paper and cloth?"),
    during: practice("Close the door gently: a knock dents wet icing."),
    after: practice("Last tray out? Switch it off."),
  },
};

/** "Tray hot until about 14:32: dry mitts." with the moment as the screens write it, and the tray's number where it is needed. */
export const hotTrayLine = (untilClock: string, number?: number): CautionLine =>
  from(`${EN_563}; ${OSHA_KITCHEN}`)(
    `Tray ${number === undefined ? "" : `${number} `}hot until about ${untilClock}: dry mitts.`,
  );

const HOT_PART: Readonly<Record<ToolKind, CautionLine>> = {
  "hot-air": prudent("Nozzle"),
  oven: memory("Oven"),
  "warm-cabinet": memory("Heater"),
};

/** "Nozzle stays hot for about 10 min after switch-off." */
export function coolDownLine(kind: ToolKind, coolDownMin: number): CautionLine {
  const { text, source } = HOT_PART[kind];
  return { text: `${text} stays hot for about ${coolDownMin} min after switch-off.`, source };
}

/** What to look for on the icing while heat is on it. */
export const OVERHEATING_CARD: CautionCard = card("Too much heat", [
  practice("Stop at the first dulling, bulge or hairline crack."),
  practice("Icing given too much heat swells and cracks."),
  practice("A swollen patch can burst: keep your face back."),
  practice("A slight gloss is normal."),
]);

export const BURN_CARD: CautionCard = card("A burn", [
  firstAid("Cool running tap water on it, for 20 minutes."),
  firstAid("Rings, watches and bracelets off."),
  firstAid("Then cover it with cling film."),
  firstAid("No ice. No grease, butter or cream."),
  firstAid("Face, hands, large or deep: get medical help."),
  memory("In doubt, get medical help."),
]);

export const ELECTRICITY_CARD: CautionCard = card("Electricity", [
  cords("Look over cord and plug before each use."),
  cords("Damaged cord or plug: take the tool out of use."),
  cords("Dry hands at plug and switch."),
  prudent("Near water: only a socket with ground-fault (RCD) cover."),
  memory("Pull the plug, not the cord. No lead across a walkway."),
]);

export const EGGS_CARD: CautionCard = card("Egg in icing", [
  from("FDA Food Code 3-302.13")("Not cooked: use pasteurised egg in place of raw."),
  from("FDA Food Code 1-201.10")("Icing with egg may have to be kept cold. See your plan."),
  from("FDA Food Code 3-501.19")("Left out by written plan: 4 h at most, then discard."),
  memory("Oven air that sets icing does not make egg safe."),
  from("the drying model; no published value for royal icing was found")(
    "Water activity shown is an estimate. It clears nothing.",
  ),
]);

export const ALLERGENS_CARD: CautionCard = card("Allergens", [
  from("FALCPA 2004, FASTER 2021 (quoted)")("Name every allergen on the order and on the pack."),
  memory("A shared bag, bowl or brush carries traces over."),
  memory("Colours and sprinkles have labels too: read them."),
  memory("Not sure what is in it? Do not say it is free of it."),
]);

/** What the law lists by name: the American list quoted, the European one from memory. */
export const ALLERGENS = {
  us: {
    where: "United States",
    names: ["milk", "egg", "fish", "crustacean shellfish", "tree nuts", "peanuts", "wheat", "soy", "sesame"],
    source: "FALCPA 2004, FASTER 2021 (quoted)",
  },
  eu: {
    where: "European Union",
    names: [
      "cereals with gluten",
      "crustaceans",
      "eggs",
      "fish",
      "peanuts",
      "soybeans",
      "milk",
      "nuts",
      "celery",
      "mustard",
      "sesame",
      "sulphites",
      "lupin",
      "molluscs",
    ],
    source: "Regulation (EU) 1169/2011 Annex II; names from memory",
  },
} as const;
