import {
  BISCUIT_HEAT_J_M3_K,
  BISCUIT_MM,
  BISCUIT_W_M_K,
  ICING_HEAT_J_M3_K,
  ICING_W_M_K,
} from "#shared/drying/film/constants.ts";
import type { Jet } from "#shared/heat/jet.ts";

/** Heat transfer right under the jet over its mean out to 2.5 nozzle widths (memory). */
const CENTRE_SHARE = 1.5;
const CELL_M = 0.25e-3;
/** Of the fastest cell's own time, so that the explicit step stays stable. */
const STEP_SHARE = 0.4;

/**
 * Seconds until a jet held still brings the surface of the icing to `limitC`; Infinity if not within `withinS`. Heat is
 * conducted through icing and biscuit in thin cells. A crust gives off no water, so nothing cools it: errs on the short side.
 */
export function heldTooLongS(
  thicknessMm: number,
  jet: Jet,
  startC: number,
  limitC: number,
  withinS: number,
): number {
  if (startC >= limitC) return 0;
  if (jet.tempC <= limitC) return Infinity;
  const hWm2K = CENTRE_SHARE * jet.hWm2K;
  const icing = Math.max(2, Math.round(thicknessMm / 1000 / CELL_M));
  const biscuit = Math.round(BISCUIT_MM / 1000 / CELL_M);
  const icingM = thicknessMm / 1000 / icing;
  const biscuitM = BISCUIT_MM / 1000 / biscuit;
  const isIcing = (cell: number): boolean => cell < icing;
  const heatJ = (cell: number): number =>
    isIcing(cell) ? icingM * ICING_HEAT_J_M3_K : biscuitM * BISCUIT_HEAT_J_M3_K;
  const halfM2KW = (cell: number): number =>
    isIcing(cell) ? icingM / 2 / ICING_W_M_K : biscuitM / 2 / BISCUIT_W_M_K;
  const cells = icing + biscuit;
  const tempC = new Float64Array(cells).fill(startC);
  const flow = new Float64Array(cells);
  const intoFirst = 1 / (1 / hWm2K + halfM2KW(0));
  const conductance = Array.from({ length: cells - 1 }, (_, i) => 1 / (halfM2KW(i) + halfM2KW(i + 1)));
  const steepest = Math.max(...Array.from({ length: cells }, (_, i) => (2 * (1 / halfM2KW(i))) / heatJ(i)));
  const stepS = STEP_SHARE / steepest;
  const surfaceC = (): number => jet.tempC - (intoFirst / hWm2K) * (jet.tempC - tempC[0]!);
  let before = surfaceC();
  if (before >= limitC) return 0;
  for (let s = stepS; s <= withinS; s += stepS) {
    for (let i = 0; i < cells - 1; i++) flow[i] = conductance[i]! * (tempC[i]! - tempC[i + 1]!);
    for (let i = 0; i < cells; i++) {
      const comes = i === 0 ? intoFirst * (jet.tempC - tempC[0]!) : flow[i - 1]!;
      tempC[i]! += (stepS * (comes - flow[i]!)) / heatJ(i);
    }
    const now = surfaceC();
    if (now >= limitC) return s - stepS * ((now - limitC) / (now - before));
    before = now;
  }
  return Infinity;
}
