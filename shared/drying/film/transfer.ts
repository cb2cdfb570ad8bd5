import {
  AIR_CP_J_KG_K,
  DRY_AIR_J_KG_K,
  EMISSIVITY,
  GRAVITY_MS2,
  PRESSURE_PA,
  STEFAN_BOLTZMANN,
  WATER_AIR_MASS_RATIO,
  ZERO_C_K,
} from "./constants.ts";

/** Air at normal pressure, SI. */
export interface AirMatter {
  densityKgM3: number;
  conductivityWmK: number;
  viscosityM2S: number;
  prandtl: number;
  /** Heat's diffusivity over vapour's. */
  lewis: number;
}

const cubed = (value: number): number => value * value * value;

/**
 * Properties of air at a film temperature, −50…200 °C: Sutherland forms of the ICAO standard atmosphere; vapour's
 * diffusivity by Marrero & Mason 1972 (memory; the plates of tests/reference/drying-transfer agree within 1 %).
 */
export function airMatter(filmC: number): AirMatter {
  const k = filmC + ZERO_C_K;
  const rootCube = k * Math.sqrt(k);
  const densityKgM3 = PRESSURE_PA / (DRY_AIR_J_KG_K * k);
  const conductivityWmK = (2.64638e-3 * rootCube) / (k + 245.4 * 10 ** (-12 / k));
  const viscosityM2S = (1.458e-6 * rootCube) / (k + 110.4) / densityKgM3;
  const heatM2S = conductivityWmK / (densityKgM3 * AIR_CP_J_KG_K);
  const vapourM2S = 1.87e-10 * k ** 2.072;
  return {
    densityKgM3,
    conductivityWmK,
    viscosityM2S,
    prandtl: viscosityM2S / heatM2S,
    lewis: heatM2S / vapourM2S,
  };
}

/** Heat of evaporation, J/kg, 0–100 °C: straight line through the steam tables within 0.3 % (memory). */
export function evaporationJKg(tempC: number): number {
  return 2.5009e6 - 2380 * tempC;
}

/** Mean Nusselt number over a flat plate in laminar flow, Re < 5e5; with Sc for Pr the Sherwood number. */
export function forcedNusselt(reynolds: number, prandtl: number): number {
  return 0.664 * Math.sqrt(reynolds) * Math.cbrt(prandtl);
}

/** McAdams, horizontal plate: warm face up (Ra 1e4–1e11) or cool face up (1e5–1e10). */
export function naturalNusselt(rayleigh: number, warmFaceUp: boolean): number {
  if (!warmFaceUp) return 0.27 * Math.sqrt(Math.sqrt(rayleigh));
  return rayleigh < 1e7 ? 0.54 * Math.sqrt(Math.sqrt(rayleigh)) : 0.15 * Math.cbrt(rayleigh);
}

/** Heat transfer coefficient by natural convection, W/(m² K), of a plate with this area over perimeter. */
export function naturalWm2K(air: AirMatter, surfaceC: number, airC: number, areaPerEdgeM: number): number {
  const filmK = (surfaceC + airC) / 2 + ZERO_C_K;
  const buoyancy = (GRAVITY_MS2 / filmK) * Math.abs(surfaceC - airC) * cubed(areaPerEdgeM);
  const rayleigh = (buoyancy * air.prandtl) / (air.viscosityM2S * air.viscosityM2S);
  return (naturalNusselt(rayleigh, surfaceC > airC) * air.conductivityWmK) / areaPerEdgeM;
}

/** The same by a stream along a plate of this length. */
export function forcedWm2K(air: AirMatter, speedMs: number, lengthM: number): number {
  const reynolds = (speedMs * lengthM) / air.viscosityM2S;
  return (forcedNusselt(reynolds, air.prandtl) * air.conductivityWmK) / lengthM;
}

/** Radiation as a heat transfer coefficient, W/(m² K). */
export function radiationWm2K(surfaceC: number, aroundC: number): number {
  return 4 * EMISSIVITY * STEFAN_BOLTZMANN * cubed((surfaceC + aroundC) / 2 + ZERO_C_K);
}

/** Mass transfer coefficient, m/s, by the analogy h / (ρ cp Le^⅔). */
export function massTransferMs(air: AirMatter, hWm2K: number): number {
  return hWm2K / (air.densityKgM3 * AIR_CP_J_KG_K * Math.cbrt(air.lewis * air.lewis));
}

/** ln(1 − m), m the mass fraction of vapour in air. */
export function lnDryShare(vapourPa: number): number {
  return Math.log((PRESSURE_PA - vapourPa) / (PRESSURE_PA - (1 - WATER_AIR_MASS_RATIO) * vapourPa));
}

/** Air and surface are held to this much vapour: above it, evaporation would be boiling. */
export const MOST_VAPOUR_PA = 0.9 * PRESSURE_PA;
