import type { IngredientName } from "#shared/icing/water.ts";
import type { MixedKind } from "#shared/kitchen/mixing/batches.ts";
import type {
  BaseRecipe,
  IcingToMix,
  MixRow,
  OpenOrder,
  RecipeName,
} from "#shared/kitchen/mixing/icing-needed.ts";
import type { StirIn } from "#shared/kitchen/mixing/stir-in.ts";
import type { BatchState } from "#shared/kitchen/model/state.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import { terms } from "./terms.ts";

/** Icing to mix, batches, water to stir in. */
export const icing = (format: Formats) => {
  const { name, mass, volume, number, percent, sentence, when } = format;
  const { cookies, consistencies } = terms(format);
  const isUs = format.units === "us";
  const colour = isUs ? "Color" : "Colour";
  const ingredients: Record<IngredientName, string> = {
    "icing-sugar": isUs ? "powdered sugar" : "icing sugar",
    "meringue-powder": "meringue powder",
    "egg-white": isUs ? "pasteurized egg white" : "pasteurised egg white",
    water: "water",
  };
  /** "storm flood" */
  const kind = ({ icing = "icing", consistency }: MixedKind): string =>
    `${name(icing)} ${consistencies[consistency]}`;
  const offTrays = ({ order, offTrays, like }: OpenOrder): string => {
    const which = `${name(order.name)}: ${cookies(offTrays)} not on trays yet`;
    return like.length === 0
      ? `${which}, and of no design: not counted.`
      : `${which}, counted like its trays (${format.and(like.map((design) => name(design.name)))}).`;
  };
  return {
    // What to mix.
    title: "Icing to mix",
    of: "For",
    allOrders: "all open orders",
    asOf: (order: string | undefined, atMs: number, isLive: boolean) =>
      `${order === undefined ? "All open orders" : name(order)} · ${isLive ? "" : "as last heard "}${format.dayTime(atMs)}`,
    nothing: {
      "no-trays": "No trays yet, so there is nothing to go by.",
      "no-orders": "Nothing to mix: no orders yet.",
      "all-laid": "Nothing to mix: every layer is laid or in hand.",
    },
    columns: { mix: "mix", base: "base", water: "water" },
    baseInAll: "base in all",
    noWater: "none",
    /** "96 g on the cookies"; "a guess: 96 g on the cookies (48–144 g)"; "96 g on the cookies; 400 g already mixed". */
    need: ({ needG, leastG, mostG }: MixRow, mixedG: number) => {
      const need = `${mass(needG)} on the cookies`;
      const guess = mostG > needG ? `a guess: ${need} (${format.massRange(leastG, mostG)})` : need;
      return mixedG > 0 ? `${guess}; ${mass(mixedG)} already mixed` : guess;
    },
    base: (baseG: number) => `Base icing in all: ${mass(baseG)}`,
    recipes: "What that takes, from two usual recipes",
    recipeNames: {
      "meringue-powder": "With meringue powder",
      "egg-white": `With ${ingredients["egg-white"]}`,
    } satisfies Record<RecipeName, string>,
    /** "icing sugar 820 g, meringue powder 45 g, water 135 g; then 15 g more water". */
    recipe: ({ ingredients: parts, moreWaterG }: BaseRecipe) =>
      `${parts.map((part) => `${ingredients[part.name]} ${mass(part.massG)}`).join(", ")}; then ${format.water(moreWaterG)} more water`,
    ownRecipe: "From memory: your own recipe comes first.",
    /** What the figures include, what they leave out, and what is guessed. */
    notes: ({ mixes, orders, guessed, wastePct, batchMl, batchG }: IcingToMix): string[] => [
      ...(mixes.length === 0
        ? []
        : [
            `Includes ${percent(wastePct)} for what stays in bags and bowls, rounded up to batches of ${isUs ? volume(batchMl) : mass(batchG)}.`,
            "For layers not started. Icing already mixed, or in a bag, is not subtracted: that is yours to judge.",
          ]),
      ...orders.filter((order) => order.offTrays > 0).map(offTrays),
      ...(guessed.length === 0
        ? []
        : [
            `No area is given in ${format.and(guessed.map(name))}. Guessed from the cookie's size: a flood or top-coat over all of it, a line once round it. It may be half of that, or half as much again.`,
          ]),
    ],
    giveAreas: "Give areas under Designs",
    print: "Print this page",
    // Batches.
    kind,
    mixedToo: "Also mixed",
    past: "Past its use-by",
    /** "400 g mixed 10:00, use by 15:00". */
    batch: (
      { massG, closesS, mixedAtMs, useByAtMs }: BatchState,
      of: MixedKind | undefined,
      nowMs: number,
    ) => {
      const what = [
        ...(of === undefined ? [] : [kind(of)]),
        ...(massG === undefined ? [] : [mass(massG)]),
        `mixed ${when(mixedAtMs, nowMs)}${closesS === undefined ? "" : `, closes in ${number(closesS)} s`}`,
      ].join(" ");
      return `${sentence(what)}, ${useByAtMs < nowMs ? "was to be used by" : "use by"} ${when(useByAtMs, nowMs)}`;
    },
    tooOld: (of: MixedKind, useByAtMs: number, nowMs: number) =>
      `${sentence(kind(of))} was to be used by ${when(useByAtMs, nowMs)}: take fresh icing.`,
    finish: "Used up / thrown away",
    finishWhich: (of: MixedKind) => `${sentence(kind(of))}: used up / thrown away`,
    finished: (of: MixedKind) => `${sentence(kind(of))} finished`,
    mixed: "Mixed",
    mixedWhich: (consistency: Consistency) => `${consistencies[consistency]}: mixed`,
    mixedTitle: (of: MixedKind) => `${sentence(kind(of))}, mixed`,
    recorded: (of: MixedKind) => `${sentence(kind(of))} mixed`,
    form: {
      mass: "How much",
      massHint: "Leave it empty if it was not weighed.",
      closes: "Seconds until a line closes",
      closesHint: "Draw a line through the bowl and count. Leave it empty if you did not.",
      useBy: "Use by",
      useByHint: (timeZone: string, hours: number | undefined) =>
        hours === undefined
          ? `The kitchen's clock, ${timeZone}. A lead can set the usual hours under Room.`
          : `From the kitchen's setting: within ${number(hours)} h. The kitchen's clock, ${timeZone}.`,
      noUseBy: "Use by must be a day and a time.",
      useByRange: (days: number) => `Use by must be after now, and at most ${number(days)} days ahead.`,
      usual: (hours: number) => `${number(hours)} h after mixing, for every batch from now on`,
      notSafe:
        "How long icing may be used is for your kitchen's plan and local codes to say. Nothing here declares it safe.",
    },
    // Water to stir in.
    stir: {
      title: "Stir in water",
      base: "Base icing",
      waterInIt: "Water in it",
      ofMass: "% of its mass",
      icing: "Icing",
      any: "any: the kitchen's figures",
      wanted: "Wanted, with its water",
      choice: (consistency: Consistency, pct: number) =>
        `${sentence(consistencies[consistency])} ${number(pct, 1)}\u00a0%`,
      answer: (fact: StirIn): { head: string; body: string } => {
        const what = consistencies[fact.consistency];
        const wanted = `${number(fact.wantedPct, 1)} %`;
        switch (fact.code) {
          case "too-wet":
            return {
              head: "No water",
              body: `${sentence(what)} has ${wanted} water here, this base ${number(fact.basePct, 1)} % already. Water can't be taken out: stir in stiffer base.`,
            };
          case "as-it-is":
            return {
              head: "No water: use it as it is",
              body: `It comes to ${mass(fact.massG)} of ${what} at ${wanted} water.`,
            };
          case "add": {
            const aCup = isUs ? ` ${volume(fact.aCupMl)} a cup of base.` : "";
            return {
              head: `Stir in ${format.water(fact.waterG)} of water`,
              body: `It comes to ${mass(fact.massG)} of ${what} at ${wanted} water.${aCup}`,
            };
          }
          default:
            return unreachable(fact);
        }
      },
    },
    // The kitchen's icings.
    list: {
      none: "No icings yet.",
      add: "Add an icing",
      name: "Icing's name",
      colour,
      laidAt: "Temperature when laid",
      laidAtHint: "Leave it empty for the room's.",
      slow: "Dries slowly",
      slowHint: `Glycerine, corn syrup or a strong ${colour.toLowerCase()}. How slowly, its own films will tell.`,
      ownWater: "Water, where it differs from the kitchen's",
      water: (consistency: Consistency) => `Water for ${consistencies[consistency]}`,
      kitchens: (pct: number) => `The kitchen's: ${number(pct, 1)} %`,
    },
  };
};
