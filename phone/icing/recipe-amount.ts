import type { Recipe } from "#shared/kitchen/model/vocabulary.ts";
import type { Formats } from "#shared/words/formats.ts";

/** How much of one ingredient, as it is weighed or poured. */
export const amountText = (format: Formats, { amount, unit }: Recipe["ingredients"][number]): string =>
  unit === "g" ? format.mass(amount) : format.volume(amount);
