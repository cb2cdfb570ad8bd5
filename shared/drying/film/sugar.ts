import { BOUND_WATER_X, GAS_J_MOL_K, ZERO_C_K } from "./constants.ts";

const SUCROSE_G_MOL = 342.2965;
const WATER_G_MOL = 18.01528;

/** Solubility of sucrose in water, mass %, 0–100 °C: Vavrinecz 1962 (memory; within 0.5 of the published tables). */
export function solubilityPct(tempC: number): number {
  return 64.447 + tempC * (0.08222 + tempC * (0.0016169 + tempC * (-1.558e-6 - 4.63e-8 * tempC)));
}

/** Mole fraction of sucrose in a solution holding `massPct` % of it. */
export function sucroseMoleFraction(massPct: number): number {
  const sucrose = massPct / SUCROSE_G_MOL;
  return sucrose / (sucrose + (100 - massPct) / WATER_G_MOL);
}

/** Water activity of sucrose solution by mole fraction: Starzak & Peacock 1997 (constants read, form from memory). */
export function waterActivity(sucrose: number, tempC: number): number {
  const q = -17_638 / (GAS_J_MOL_K * (tempC + ZERO_C_K));
  return (1 - sucrose) * Math.exp(q * sucrose * sucrose * (1 + sucrose * (-1.0038 - 0.24653 * sucrose)));
}

/** Water activity of saturated sucrose solution, which is that of wet icing; −5…120 °C. */
export function saturatedActivity(tempC: number): number {
  return waterActivity(sucroseMoleFraction(solubilityPct(tempC)), tempC);
}

/** X, kg water a kg solids, at which icing stands still in air of this humidity; Infinity where it would draw water. */
export function restingX(tempC: number, rhPct: number): number {
  const share = rhPct / 100 / saturatedActivity(tempC);
  return share < 1 ? -BOUND_WATER_X * Math.log(1 - share) : Infinity;
}

/** The highest humidity, %, at which icing comes to rest at or under X. */
export function dampestRhPct(tempC: number, x: number): number {
  return 100 * saturatedActivity(tempC) * (1 - Math.exp(-x / BOUND_WATER_X));
}
