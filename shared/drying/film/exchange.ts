import { type Air, saturationPa, vapourPa } from "./air.ts";
import {
  BOUND_WATER_X,
  GRAVITY_MS2,
  LEAST_SPEED_MS,
  TRAY_AREA_PER_EDGE_M,
  TRAY_LENGTH_M,
  ZERO_C_K,
} from "./constants.ts";
import { Lookup } from "./lookup.ts";
import { restingX, saturatedActivity } from "./sugar.ts";
import {
  airMatter,
  evaporationJKg,
  forcedWm2K,
  lnDryShare,
  massTransferMs,
  MOST_VAPOUR_PA,
  naturalNusselt,
  radiationWm2K,
} from "./transfer.ts";

/** What a film meets: the heat that comes in by its surface and from beneath, and the water that leaves. */
export interface Exchange {
  /** Heat to the surface is `gainWm2` less `heatWm2K` times its temperature in °C, both as of the last `setSurfaceC`. */
  readonly heatWm2K: number;
  readonly gainWm2: number;
  readonly latentJKg: number;
  /** Temperature beneath the tray, °C. */
  readonly underC: number;
  /** X that icing comes to in the end, kg/kg; Infinity where it takes up water without end. */
  readonly restsAtX: number;
  /** Takes the coefficients for a surface of this temperature. */
  setSurfaceC(surfaceC: number): void;
  /** Sets `flux`, kg/(m² s), and its slopes by X and by temperature (the latter need not be exact). */
  at(surfaceX: number, tempC: number): void;
  flux: number;
  fluxByX: number;
  fluxByK: number;
}

/**
 * Air over a film. Its coefficients follow the surface's temperature: natural convection by the difference to the air, the
 * air's properties by the mean of both, radiation by both. The flux hm ρ ln(1+B) is hm Δρv with Stefan's factor ln(1+B)/B.
 */
export class AirExchange implements Exchange {
  readonly underC: number;
  readonly restsAtX: number;
  heatWm2K = 0;
  gainWm2 = 0;
  latentJKg = 0;
  /** Heat transfer coefficient at the surface alone, W/(m² K). */
  hWm2K = 0;
  flux = 0;
  fluxByX = 0;
  fluxByK = 0;
  #massKgM2S = 0;
  readonly #airC: number;
  readonly #rootSpeed: number;
  readonly #given: number | undefined;
  readonly #lnDryAir: number;

  constructor(air: Air) {
    this.#airC = air.tempC;
    this.underC = air.aroundC ?? air.tempC;
    this.restsAtX = restingX(air.tempC, air.rhPct);
    this.#given = air.hWm2K;
    this.#rootSpeed = Math.sqrt(Math.max(air.speedMs, LEAST_SPEED_MS));
    this.#lnDryAir = lnDryShare(Math.min(vapourPa(air), MOST_VAPOUR_PA));
    this.setSurfaceC(air.tempC);
  }

  setSurfaceC(surfaceC: number): void {
    const meanC = (surfaceC + this.#airC) / 2;
    const radiation = radiationWm2K(surfaceC, this.underC);
    this.hWm2K = this.#given ?? this.#convectionWm2K(surfaceC, meanC);
    this.heatWm2K = this.hWm2K + radiation;
    this.gainWm2 = this.hWm2K * this.#airC + radiation * this.underC;
    this.#massKgM2S = this.hWm2K * MASS_PER_HEAT.at(meanC);
    this.latentJKg = evaporationJKg(surfaceC);
  }

  /** Natural and forced together: (hn³ + hf³)^⅓. */
  #convectionWm2K(surfaceC: number, meanC: number): number {
    const rayleigh = RAYLEIGH_PER_K.at(meanC) * Math.abs(surfaceC - this.#airC);
    const natural = naturalNusselt(rayleigh, surfaceC > this.#airC) * CONDUCTION.at(meanC);
    const forced = FORCED_AT_1_MS.at(meanC) * this.#rootSpeed;
    return Math.cbrt(natural * natural * natural + forced * forced * forced);
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

/** Of air over a tray, by the mean of its temperature and the surface's, °C: each within 1e-5 of its formula. */
const byMeanC = (of: (air: ReturnType<typeof airMatter>, meanC: number) => number): Lookup =>
  new Lookup((meanC) => of(airMatter(meanC), meanC), -40, 140, 1440);
/** Rayleigh number of the tray a K of difference. */
const RAYLEIGH_PER_K = byMeanC(
  ({ prandtl, viscosityM2S }, meanC) =>
    (GRAVITY_MS2 * TRAY_AREA_PER_EDGE_M ** 3 * prandtl) / ((meanC + ZERO_C_K) * viscosityM2S * viscosityM2S),
);
/** W/(m² K) a unit of natural Nusselt number. */
const CONDUCTION = byMeanC(({ conductivityWmK }) => conductivityWmK / TRAY_AREA_PER_EDGE_M);
/** Forced coefficient at 1 m/s: it goes with the root of the speed. */
const FORCED_AT_1_MS = byMeanC((air) => forcedWm2K(air, 1, TRAY_LENGTH_M));
/** hm ρ a unit of h, kg/(m² s) a W/(m² K). */
const MASS_PER_HEAT = byMeanC((air) => massTransferMs(air, 1) * air.densityKgM3);

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
