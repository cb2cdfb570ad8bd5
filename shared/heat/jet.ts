import { ZERO_C_K } from "#shared/drying/film/constants.ts";
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

/**
 * Excess temperature left on a free round jet's centreline: ΔT0 · min(1, 5 d/x · √(ρ0/ρ∞)) (from memory). A hot jet is
 * lighter than the air it draws in, and so decays as one from a smaller nozzle of the same momentum.
 */
export function centrelineExcessC(
  outletC: number,
  roomC: number,
  nozzleMm: number,
  distanceMm: number,
): number {
  const lightness = Math.sqrt((roomC + ZERO_C_K) / (outletC + ZERO_C_K));
  return (outletC - roomC) * Math.min(1, (5 * nozzleMm * lightness) / distanceMm);
}

/** Air meeting the icing where the jet points. */
export interface Jet {
  tempC: number;
  hWm2K: number;
}

/**
 * A hot-air jet where it meets the icing: temperatures in °C, sizes in mm, speed at the outlet in m/s. Heat transfer is the
 * mean out to 2.5 nozzle widths; a slower jet than Re 2000, or one held closer or farther than 2–12 widths, is taken as that.
 */
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
    tempC: roomC + centrelineExcessC(outletC, roomC, nozzleMm, distanceMm),
    hWm2K: (nusselt * air.conductivityWmK) / nozzleM,
  };
}

function clamp(value: number, min: number, max: number): number {
  return Math.min(max, Math.max(min, value));
}
