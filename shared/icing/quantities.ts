import type { OutlineShape } from "./outline-shape.ts";
import type { Consistency } from "./poured.ts";
import { ICING_DENSITY_KG_M3 } from "#shared/drying/film/constants.ts";
import { CUP_ML } from "#shared/units.ts";

/**
 * Area left inside a margin kept free all round, mm²: A − P m + π m² (Steiner's formula, inwards), exact for a circle,
 * slightly low for a shape with corners; 0 once the margin eats it up.
 */
export function floodedAreaMm2(shape: OutlineShape, marginMm: number): number {
  const { areaMm2, perimeterMm } = shape;
  within("areaMm2", areaMm2, 1, 1e6, "mm²");
  within("perimeterMm", perimeterMm, 1, 1e5, "mm");
  within("marginMm", marginMm, 0, 1000, "mm");
  const roundness = perimeterMm ** 2 - 4 * Math.PI * areaMm2;
  if (roundness < -1e-9 * perimeterMm ** 2)
    throw new RangeError(
      `perimeterMm is too short for areaMm2: at least ${Math.sqrt(4 * Math.PI * areaMm2)} mm`,
    );
  const vanishesAtMm = (perimeterMm - Math.sqrt(Math.max(0, roundness))) / (2 * Math.PI);
  if (marginMm >= vanishesAtMm) return 0;
  // The formula by its two roots: no digits are lost to a difference of nearly equal areas.
  const otherRootMm = Math.max(vanishesAtMm, areaMm2 / (Math.PI * vanishesAtMm));
  return areaMm2 * (1 - marginMm / vanishesAtMm) * (1 - marginMm / otherRootMm);
}

/** Flood or top-coat of one cookie, mL. `coverage` is the share of the area this layer takes, 0–1. */
export function floodVolumeMl(areaMm2: number, thicknessMm: number, coverage = 1): number {
  within("areaMm2", areaMm2, 0, 1e6, "mm²");
  within("thicknessMm", thicknessMm, 0.2, 12, "mm");
  within("coverage", coverage, 0, 1, "of the area");
  return (areaMm2 * thicknessMm * coverage) / 1000;
}

/** A piped line of one cookie, mL: a round bead as wide as the cone's opening. */
export function beadVolumeMl(lengthMm: number, openingMm: number): number {
  within("lengthMm", lengthMm, 0, 1e5, "mm");
  within("openingMm", openingMm, 0.3, 10, "mm");
  return (lengthMm * Math.PI * openingMm ** 2) / 4 / 1000;
}

/** Grams of that many mL. */
export const massOfG = (volumeMl: number, densityKgM3 = ICING_DENSITY_KG_M3): number =>
  (volumeMl * densityKgM3) / 1000;

/** What one layer of one tray takes. */
export interface IcingNeed {
  colour: string;
  consistency: Consistency;
  volumeMl: number;
}

/** What to mix of one colour in one consistency. */
export interface IcingBatch {
  colour: string;
  consistency: Consistency;
  /** On the cookies. */
  needMl: number;
  /** Mixed: the need and the waste, rounded up to whole mixable batches. */
  batches: number;
  mixMl: number;
  mixG: number;
}

export interface MixOptions {
  /** Left in bags and bowls, share of the need. */
  wasteShare?: number;
  /** The smallest amount worth mixing. */
  batchMl?: number;
  densityKgM3?: number;
}

/** Sums needs by colour and consistency, adds the waste and rounds up to batches; in the order first met. */
export function batchesFor(needs: readonly IcingNeed[], options: MixOptions = {}): IcingBatch[] {
  const wasteShare = within("wasteShare", options.wasteShare ?? 0.1, 0, 1, "of the need");
  const batchMl = within("batchMl", options.batchMl ?? CUP_ML / 4, 1, 1e5, "mL");
  const densityKgM3 = within("densityKgM3", options.densityKgM3 ?? ICING_DENSITY_KG_M3, 800, 1600, "kg/m³");
  const sums = new Map<string, IcingNeed>();
  for (const need of needs) {
    within("volumeMl", need.volumeMl, 0, 1e9, "mL");
    const key = `${need.consistency} ${need.colour}`;
    sums.set(key, { ...need, volumeMl: need.volumeMl + (sums.get(key)?.volumeMl ?? 0) });
  }
  return [...sums.values()].map(({ colour, consistency, volumeMl }) => {
    const batches = Math.max(0, Math.ceil((volumeMl * (1 + wasteShare)) / batchMl - 1e-9));
    const mixMl = batches * batchMl;
    return { colour, consistency, needMl: volumeMl, batches, mixMl, mixG: massOfG(mixMl, densityKgM3) };
  });
}

function within(field: string, value: number, min: number, max: number, unit: string): number {
  if (!(value >= min && value <= max))
    throw new RangeError(`${field} must be ${min}–${max} ${unit}, got ${value}`);
  return value;
}
