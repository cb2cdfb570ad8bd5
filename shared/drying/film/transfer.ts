import { type Air, saturationPa, vapourPa } from "./air.ts";
import {
  AIR_CP_J_KG_K,
  BOUND_WATER_X,
  DRY_AIR_J_KG_K,
  EMISSIVITY,
  GRAVITY_MS2,
  PRESSURE_PA,
  STEFAN_BOLTZMANN,
  TRAY_AREA_PER_EDGE_M,
  TRAY_LENGTH_M,
  UNDERSIDE_W_M2_K,
  VAPOUR_J_KG_K,
  WATER_AIR_MASS_RATIO,
  ZERO_C_K,
} from "./constants.ts";
import { Lookup } from "./lookup.ts";
import { saturatedActivity } from "./sugar.ts";

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

/** Natural and forced together: (hn³ + hf³)^⅓. */
function heatTransferWm2K(matter: AirMatter, air: Air, surfaceC: number): number {
  if (air.hWm2K !== undefined) return air.hWm2K;
  const natural = naturalWm2K(matter, surfaceC, air.tempC, TRAY_AREA_PER_EDGE_M);
  const forced = forcedWm2K(matter, air.speedMs, TRAY_LENGTH_M);
  return Math.cbrt(cubed(natural) + cubed(forced));
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

/** A wet film's temperature is worked out to this, K. */
const WET_WITHIN_K = 0.01;

/** Air and surface are held to this much vapour: above it, evaporation would be boiling. */
export const MOST_VAPOUR_PA = 0.9 * PRESSURE_PA;

/** What a film meets at its surface: how much heat comes in, and how much water goes off at a surface X and temperature. */
export interface Exchange {
  readonly airC: number;
  /** Everything that warms the film, W/(m² K). */
  readonly heatWm2K: number;
  readonly latentJKg: number;
  /** Sets `flux`, kg/(m² s), and its slopes by X and by temperature (the latter need not be exact). */
  at(surfaceX: number, tempC: number): void;
  flux: number;
  fluxByX: number;
  fluxByK: number;
}

/**
 * Air over a film, from the air alone: the coefficient is that at the temperature a wet film comes to in it. The flux
 * hm ρ ln(1+B) is hm Δρv with Stefan's factor ln(1+B)/B. Under a jet (`hWm2K`) nothing else exchanges heat: what
 * radiates and what lies under the biscuit is not at the jet's temperature.
 */
export class AirExchange implements Exchange {
  readonly airC: number;
  readonly heatWm2K: number;
  readonly latentJKg: number;
  /** Heat transfer coefficient at the surface alone, W/(m² K). */
  readonly hWm2K: number;
  /** What a wet film comes to, °C. */
  readonly wetC: number;
  flux = 0;
  fluxByX = 0;
  fluxByK = 0;
  readonly #massKgM2S: number;
  readonly #lnDryAir: number;

  /** `wet` for tests: another water activity of the wet surface, and convection as the only heat. */
  constructor(air: Air, wet?: { activity: number; convectionOnly: boolean }) {
    const activity = wet?.activity ?? saturatedActivity(air.tempC);
    const alone = air.hWm2K !== undefined || (wet?.convectionOnly ?? false);
    this.airC = air.tempC;
    this.#lnDryAir = lnDryShare(Math.min(vapourPa(air), MOST_VAPOUR_PA));
    let wetC = air.tempC - 3;
    let matter = airMatter(air.tempC);
    let h = 0;
    let heat = 0;
    let mass = 0;
    let step = Infinity;
    for (let i = 0; i < 6 && Math.abs(step) > WET_WITHIN_K; i++) {
      if (i === 1) matter = airMatter((wetC + air.tempC) / 2);
      h = heatTransferWm2K(matter, air, wetC);
      heat = alone ? h : h + radiationWm2K(wetC, air.tempC) + UNDERSIDE_W_M2_K;
      mass = massTransferMs(matter, h) * matter.densityKgM3;
      const pa = Math.min(activity * saturationPa(wetC), MOST_VAPOUR_PA);
      const latent = evaporationJKg(wetC);
      const off = mass * (this.#lnDryAir - lnDryShare(pa)) * latent;
      const slope = heat + mass * latent * lnDrySlope(pa) * pa * lnSaturationSlope(wetC);
      step = (heat * (air.tempC - wetC) - off) / slope;
      wetC += step;
    }
    this.wetC = wetC;
    this.hWm2K = h;
    this.heatWm2K = heat;
    this.#massKgM2S = mass;
    this.latentJKg = evaporationJKg(wetC);
  }

  at(surfaceX: number, tempC: number): void {
    const wetPa = WET_PA.at(tempC);
    const dry = surfaceX > 0 ? DRY.at(surfaceX) : 1;
    const wet = surfaceX > 0 ? 1 - dry : surfaceX / BOUND_WATER_X;
    this.flux = this.#massKgM2S * (this.#lnDryAir - LN_DRY.at(wetPa * wet));
    const byPa = -this.#massKgM2S * LN_DRY.slope;
    this.fluxByX = (byPa * wetPa * dry) / BOUND_WATER_X;
    this.fluxByK = byPa * WET_PA.slope * wet;
  }
}

/** Vapour pressure over wet icing by temperature, Pa: within 1e-5 of the formula. */
const WET_PA = new Lookup(
  (tempC) => Math.min(saturatedActivity(tempC) * saturationPa(tempC), MOST_VAPOUR_PA),
  -40,
  140,
  1440,
);
/** Share of the icing's own vapour pressure that its bound water holds back, by X: within 1e-6. */
const DRY = new Lookup((x) => Math.exp(-x / BOUND_WATER_X), 0, 0.6, 12_000);
/** `lnDryShare` by vapour pressure, below and above which no film comes: within 1e-5 of its change. */
const LN_DRY = new Lookup(lnDryShare, -2 * MOST_VAPOUR_PA, MOST_VAPOUR_PA, 24_000);

function lnDrySlope(vapourPa: number): number {
  const shrink = 1 - WATER_AIR_MASS_RATIO;
  return 1 / (PRESSURE_PA - vapourPa) - shrink / (PRESSURE_PA - shrink * vapourPa);
}

function lnSaturationSlope(tempC: number): number {
  const k = tempC + ZERO_C_K;
  return evaporationJKg(tempC) / (VAPOUR_J_KG_K * k * k);
}
