/** Air at 1 atm and −50 to 600 °C: ideal gas and Sutherland's formulas (White, Viscous Fluid Flow, table 1-2 and 1-3). */
function airAt(tempC: number): { kinematicM2s: number; conductivityWmK: number } {
  const tempK = tempC + 273.15;
  const scaled = (tempK / 273) ** 1.5;
  const viscosityPas = (1.716e-5 * scaled * (273 + 111)) / (tempK + 111);
  return {
    kinematicM2s: (viscosityPas * 287.05 * tempK) / 101_325,
    conductivityWmK: (0.0241 * scaled * (273 + 194)) / (tempK + 194),
  };
}

const PRANDTL = 0.7;

/**
 * Mean Nusselt number (on the nozzle's width) under one round nozzle, out to radius r. Martin 1977, as in Incropera
 * eq. 7.73–7.75: 2000 ≤ Re ≤ 400 000, 2 ≤ height/width ≤ 12, 2.5 ≤ r/width ≤ 7.5. Not checked here: `jetAt` holds to
 * it.
 */
export function martinNusselt(re: number, pr: number, radiusByWidth: number, heightByWidth: number): number {
  const narrowness = 1 / radiusByWidth;
  const geometry = (narrowness * (1 - 1.1 * narrowness)) / (1 + 0.1 * (heightByWidth - 6) * narrowness);
  const flow = 2 * Math.sqrt(re * (1 + 0.005 * re ** 0.55));
  return geometry * flow * pr ** 0.42;
}

/** Excess temperature left on a free round jet's centreline: ΔT0 · min(1, 5 d/x) (from memory). */
export const centrelineExcess = (excessC: number, nozzleMm: number, distanceMm: number): number =>
  excessC * Math.min(1, (5 * nozzleMm) / distanceMm);

/** h is held to the range computed over craft tools and heat guns, W/m²K: outside it Martin's formula does not hold. */
export const JET_H_WM2K = { min: 60, max: 150 } as const;

export interface Jet {
  /** Air meeting the icing on the axis. */
  tempC: number;
  hWm2K: number;
  /** Width of the hot spot, mm. */
  spotMm: number;
}

/** The jet where it meets the icing. `outletC` °C, sizes in mm, speed at the outlet in m/s. */
export function jetAt(options: {
  outletC: number;
  roomC: number;
  nozzleMm: number;
  distanceMm: number;
  speedMs: number;
}): Jet {
  const { outletC, roomC, nozzleMm, distanceMm, speedMs } = options;
  const { kinematicM2s, conductivityWmK } = airAt(outletC);
  const re = clamp((speedMs * nozzleMm) / 1000 / kinematicM2s, 2000, 400_000);
  const nusselt = martinNusselt(re, PRANDTL, 2.5, clamp(distanceMm / nozzleMm, 2, 12));
  return {
    tempC: roomC + centrelineExcess(outletC - roomC, nozzleMm, distanceMm),
    hWm2K: clamp((nusselt * conductivityWmK) / (nozzleMm / 1000), JET_H_WM2K.min, JET_H_WM2K.max),
    // A free jet's temperature falls to half at about 0.125 x from its axis (from memory).
    spotMm: Math.max(nozzleMm, 0.25 * distanceMm),
  };
}

function clamp(value: number, min: number, max: number): number {
  return Math.min(max, Math.max(min, value));
}
