import type { AllergenName, CardId, CautionId, CautionSource } from "#shared/heat/cautions.ts";
import type { ToolKind } from "#shared/heat/tool.ts";
import type { Formats } from "#shared/words/formats.ts";

const HOT_PARTS: Record<ToolKind, string> = {
  "hot-air": "Nozzle",
  oven: "Oven",
  "warm-cabinet": "Heater",
};

/** Cautions for heat tools, and first aid. Where each comes from stands in `shared/heat/cautions.ts`. */
export const cautions = (format: Formats) => {
  const isUs = format.units === "us";
  return {
    titles: {
      "hot-air": "Hot air on icing",
      oven: "Trays in a low oven",
      "warm-cabinet": "Trays in the warm cabinet",
      overheating: "Too much heat",
      burn: "A burn",
      electricity: "Electricity",
      eggs: "Egg in icing",
      allergens: "Allergens",
    } satisfies Record<CardId, string>,
    lines: {
      "cord-and-plug": "Look over cord and plug. Dry hands at the plug.",
      "paper-out-of-jet": "Paper, parchment, acetate and towels: out of the jet.",
      "no-spirits-near": `No spirit-based ${isUs ? "colors" : "colours"} or extracts near it.`,
      "keep-moving": "Hold it 13–15 cm (5–6 in) off and keep it moving.",
      "never-point": "Never point it at anyone. Never block its air inlet.",
      "stay-with-it": "Stay with it while it runs and while it cools.",
      "nozzle-hot": "Nozzle and element stay hot after switch-off.",
      "unplug-to-store": "Unplug it and let it cool before you put it away.",
      "read-oven-first": "Read the oven's temperature before the tray goes in.",
      "stand-aside": "Stand to one side as you open the door.",
      "dry-mitts": "Dry mitts on both hands: wet cloth lets heat through.",
      "tray-metal-burns": "Tray metal at 65 °C (149 °F) burns in one second.",
      "no-tray-across": "No hot tray across a walkway or on the floor.",
      "say-hot-tray": "Say “hot tray” as you carry it; set it down marked hot.",
      "no-kill-step": "Oven air this low sets icing. It makes no food safe.",
      "fan-free": "Leave the fan's inlet and outlet free.",
      "paper-off-heater": "Keep paper, cloth and bags off the heater.",
      "no-spirits-inside": `No spirit-based ${isUs ? "colors" : "colours"} or extracts inside.`,
      "warm-metal-burns": "Metal at 48 °C (118 °F) burns if held for 10 minutes.",
      "no-cold-store": "Food that must be kept cold must not be stored in here.",
      "last-out-off": "Last tray out: switch it off.",
      "hot-air-before": "Cord sound, hands dry; paper, acetate, spirits well clear?",
      "hot-air-during": "Keep it moving, 13–15 cm (5–6 in) off.",
      "hot-air-after": "Stand it clear: the nozzle is still hot. Unplug it.",
      "oven-before": "Oven at its set temperature? Dry mitts at hand?",
      "oven-after": "Dry mitts. The tray stays hot longer than it looks.",
      "cabinet-before": "Fan free, heater clear of paper and cloth?",
      "cabinet-during": "Close the door gently: a knock dents wet icing.",
      "cabinet-after": "Last tray out? Switch it off.",
      "stop-at-dulling": "Stop at the first dulling, bulge or hairline crack.",
      "too-much-heat-cracks": "Icing given too much heat swells and cracks.",
      "patch-can-burst": "A swollen patch can burst: keep your face back.",
      "gloss-is-normal": "A slight gloss is normal.",
      "cool-water": "Cool running tap water on it, for 20 minutes.",
      "rings-off": "Rings, watches and bracelets off.",
      "cover-it": `Then cover it with ${isUs ? "plastic wrap" : "cling film"}.`,
      "no-ice": "No ice. No grease, butter or cream.",
      "medical-help": "Face, hands, large or deep: get medical help.",
      "in-doubt": "In doubt, get medical help.",
      "cord-each-use": "Look over cord and plug before each use.",
      "damaged-out": "Damaged cord or plug: take the tool out of use.",
      "dry-hands": "Dry hands at plug and switch.",
      "ground-fault": `Near water: only ${isUs ? "an outlet with ground-fault (GFCI)" : "a socket with residual-current (RCD)"} protection.`,
      "pull-the-plug": "Pull the plug, not the cord. No cord across a walkway.",
      "pasteurised-egg": `Not cooked: use ${isUs ? "pasteurized" : "pasteurised"} egg in place of raw.`,
      "egg-kept-cold": "Icing with egg may have to be kept cold. See your plan.",
      "left-out": "Left out by written plan: 4 h at most, then discard.",
      "oven-no-egg-safety": "Oven air that sets icing does not make egg safe.",
      "water-activity": "Water activity shown is an estimate. It clears nothing.",
      "name-allergens": "Name every allergen on the order and on the pack.",
      traces: "A shared bag, bowl or brush carries traces over.",
      "read-labels": `${isUs ? "Colors" : "Colours"} and sprinkles have labels too: read them.`,
      "not-sure": "Not sure what is in it? Do not say it is free of it.",
    } satisfies Record<CautionId, string>,
    /** Each caution's source, by its code. */
    sources: {
      practice: "common practice, no source",
      memory: "from memory",
      "osha-kitchen": "OSHA young-worker guidance, restaurant kitchens",
      "worksafe-nz": "WorkSafe New Zealand, kitchen burns",
      prudent: "Prudent Practices §7.C.5.6",
      "prudent-and-memory": "Prudent Practices §7.C.5.6; spirit-based colors from memory",
      "cfr-cords": "29 CFR 1910.334",
      "en-563": "EN 563:1994, now ISO 13732-1 (quoted)",
      "en-563-and-osha":
        "EN 563:1994, now ISO 13732-1 (quoted); OSHA young-worker guidance, restaurant kitchens",
      "first-aid": "NHS and British Burn Association first aid",
      "food-code-raw-egg": "FDA Food Code 3-302.13",
      "food-code-cold": "FDA Food Code 1-201.10",
      "food-code-time": "FDA Food Code 3-501.19",
      "drying-model": "the drying model; no published value for royal icing was found",
      falcpa: "FALCPA 2004, FASTER 2021 (quoted)",
      "eu-1169": "Regulation (EU) 1169/2011 Annex II; names from memory",
    } satisfies Record<CautionSource, string>,
    /** Goes with everything said of heat, electricity, eggs or allergens; the short form with a single line. */
    deference: "Only a reminder: your kitchen's own plan, local codes and licensed practice come first.",
    deferenceShort: "Your kitchen's plan and local codes come first.",
    coolDown: (kind: ToolKind, coolDownMin: number) =>
      `${HOT_PARTS[kind]} stays hot for about ${format.number(coolDownMin)} min after switch-off.`,
    allergens: {
      byName: (where: "us" | "eu", names: readonly AllergenName[]) =>
        `By name in the ${where === "us" ? "United States" : "European Union"}: ${names
          .map((one) => ALLERGEN_NAMES[one])
          .join(", ")}.`,
    },
    firstAid: "A burn? First aid",
    firstAidTitle: "First aid and cautions",
  };
};

const ALLERGEN_NAMES: Record<AllergenName, string> = {
  milk: "milk",
  egg: "egg",
  fish: "fish",
  crustaceans: "crustacean shellfish",
  "tree nuts": "tree nuts",
  peanuts: "peanuts",
  wheat: "wheat",
  soy: "soy",
  sesame: "sesame",
  "gluten cereals": "cereals with gluten",
  nuts: "nuts",
  celery: "celery",
  mustard: "mustard",
  sulphites: "sulphites",
  lupin: "lupin",
  molluscs: "molluscs",
};
