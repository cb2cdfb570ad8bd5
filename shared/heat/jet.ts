import { airMatter } from "#shared/drying/film/transfer.ts";

/**
 * Mean Nusselt number, on the nozzle's width d, under one round nozzle out to radius r. Martin 1977, as in Incropera
 * eq. 7.73–7.75: 2000 ≤ Re ≤ 400 000, 2 ≤ height/d ≤ 12, 2.5 ≤ r/d ≤ 7.5. Not checked here: `jetAt` keeps to it.
 */
export function martinNusselt(re: number, pr: number, radiusByWidth: number, heightByWidth: number): number {
  const narrowness = 1 / radiusByWidth;
  const geometry = (narrowness * (1 - 1.1 * narrowness)) / (1 + 0.1 * (heightByWidth - 6) * narrowness);
  return geometry * 2 * Math.sqrt(re * (1 + 0.005 * re ** 0.55)) * pr ** 0.42;
}

/** Excess temperature left on a free round jet's centreline: ΔT0 · min(1, 5 d/x) (from memory). */
export const centrelineExcessC = (excessC: number, nozzleMm: number, distanceMm: number): number =>
  excessC * Math.min(1, (5 * nozzleMm) / distanceMm);

/** Heat transfer under the jet is held to what Martin's formula gives over craft tools and heat guns, W/m²K. */
export const JET_H_WM2K = { min: 60, max: 150 } as const;

/** Air meeting the icing where the jet points. */
export interface Jet {
  tempC: number;
  hWm2K: number;
}

/** A hot-air jet where it meets the icing: temperatures in °C, sizes in mm, speed at the outlet in m/s. */
export function jetAt(
  outletC: number,
  roomC: number,
  nozzleMm: number,
  distanceMm: number,
  speedMs: number,
): Jet {
  const air = airMatter(outletC);
  const nozzleM = nozzleMm / 1000;
  const re = clamp((speedMs * nozzleM) / air.viscosityM2S, 2000, 400_000);
  const nusselt = martinNusselt(re, air.prandtl, 2.5, clamp(distanceMm / nozzleMm, 2, 12));
  return {
    tempC: roomC + centrelineExcessC(outletC - roomC, nozzleMm, distanceMm),
    hWm2K: clamp((nusselt * air.conductivityWmK) / nozzleM, JET_H_WM2K.min, JET_H_WM2K.max),
  };
}

function clamp(value: number, min: number, max: number): number {
  return Math.min(max, Math.max(min, value));
}
