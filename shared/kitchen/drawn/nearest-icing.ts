import { differenceEuclidean, modeLab65, modeRgb, useMode } from "culori/fn";
import type { Icing } from "#shared/kitchen/model/vocabulary.ts";

useMode(modeRgb);
useMode(modeLab65);

/** CIE 1976 colour difference, D65. */
const difference = differenceEuclidean("lab65");

/** The icing that looks most like a colour; undefined of none. */
export const nearestIcing = (icings: readonly Icing[], hex: string): Icing | undefined =>
  icings.toSorted((a, b) => difference(a.hex, hex) - difference(b.hex, hex))[0];
