import { TSP_ML, formatMass, formatVolume, type KitchenUnits } from "#shared/units.ts";
import type { BaseRecipe, IcingToMix, MixRow, OpenOrder } from "#shared/kitchen/mixing/icing-needed.ts";
import { cookies, listed } from "./wording.ts";

const NO_BREAK = "\u00a0";

/** "2½ tsp", where the kitchen has spoons and it comes to more than a drop: a gram of water is a millilitre. */
export const spoonWords = (waterG: number, units: KitchenUnits): string | undefined =>
  units === "us" && waterG >= TSP_ML / 8 ? formatVolume(waterG, units) : undefined;

/** "12 g", or with spoons "12 g (2½ tsp)". */
export function waterWords(waterG: number, units: KitchenUnits): string {
  const spoons = spoonWords(waterG, units);
  return spoons === undefined ? formatMass(waterG) : `${formatMass(waterG)} (${spoons})`;
}

/** "96 g on the cookies"; "a guess: 96 g on the cookies (48–144 g)"; "96 g on the cookies; 400 g stands mixed". */
export function needWords({ needG, leastG, mostG }: MixRow, standsG = 0): string {
  const need = `${formatMass(needG)} on the cookies`;
  const words = mostG > needG ? `a guess: ${need} (${massRange(leastG, mostG)})` : need;
  return standsG > 0 ? `${words}; ${formatMass(standsG)} stands mixed` : words;
}

/** "48–144 g", "800 g–1.2 kg", never broken over two lines. */
function massRange(leastG: number, mostG: number): string {
  const [least, most] = [formatMass(leastG), formatMass(mostG)];
  const [figure, unit] = least.split(" ");
  const range = most.endsWith(` ${unit}`) ? `${figure}–${most}` : `${least}–${most}`;
  return range.replaceAll(" ", NO_BREAK);
}

/** What goes with the figures: what they add, what they leave out, and what is guessed. */
export function mixNotes(toMix: IcingToMix, units: KitchenUnits): string[] {
  const step = units === "us" ? formatVolume(toMix.batchMl, units) : formatMass(toMix.batchG);
  return [
    ...(toMix.mixes.length === 0
      ? []
      : [
          `With ${toMix.wastePct} % for what stays in bags and bowls, rounded up to batches of ${step}.`,
          "For layers not begun. What stands mixed, or is in a bag already, is not taken off: that is yours to judge.",
        ]),
    ...toMix.orders.flatMap(offTraysNote),
    ...(toMix.guessed.length === 0
      ? []
      : [
          `No area is given in ${listed(toMix.guessed)}. Guessed from the cookie's size: a flood or top-coat over all of it, a line once round it. It may be half of that, or half as much again.`,
        ]),
  ];
}

function offTraysNote({ order, offTrays, like }: OpenOrder): string[] {
  if (offTrays === 0) return [];
  const which = `${order.name}: ${cookies(offTrays)} on no tray yet`;
  if (like.length === 0) return [`${which} and of no design: not counted.`];
  return [`${which}, counted like its trays (${listed(like.map(({ name }) => name))}).`];
}

/** "icing sugar 820 g, meringue powder 45 g, water 135 g; then 15 g more water". */
export function recipeWords({ ingredients, moreWaterG }: BaseRecipe, units: KitchenUnits): string {
  const parts = ingredients.map(({ name, massG }) => `${name} ${formatMass(massG)}`);
  return `${parts.join(", ")}; then ${waterWords(moreWaterG, units)} more water`;
}
