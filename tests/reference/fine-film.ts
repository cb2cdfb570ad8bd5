import { type Air, type AirSpell, saturationPa, vapourPa } from "#shared/drying/film/air.ts";
import {
  BISCUIT_HEAT_J_M3_K,
  BISCUIT_MM,
  BISCUIT_W_M_K,
  BOUND_WATER_X,
  CRUST_DEPTH_M,
  DIFFUSIVITY_AT_K,
  ACTIVATION_J_MOL,
  DIFFUSIVITY_M2_S,
  DRY_THROUGH_X,
  GAS_J_MOL_K,
  ICING_DENSITY_KG_M3,
  ICING_HEAT_J_M3_K,
  ICING_W_M_K,
  LEAST_SPEED_MS,
  TRAY_AREA_PER_EDGE_M,
  TRAY_LENGTH_M,
  UNDER_TRAY_W_M2_K,
  ZERO_C_K,
} from "#shared/drying/film/constants.ts";
import { type FilmSpec, filmStart } from "#shared/drying/film/run.ts";
import { restingX, saturatedActivity } from "#shared/drying/film/sugar.ts";
import {
  airMatter,
  evaporationJKg,
  forcedWm2K,
  lnDryShare,
  massTransferMs,
  naturalWm2K,
  radiationWm2K,
} from "#shared/drying/film/transfer.ts";

/**
 * A second solver of the same equations, written apart from the product's: 400 even cells of water, 40 cells of icing and 40 of
 * biscuit for heat, backward Euler in small steps, every coefficient by its correlation. Slow and plain.
 */
const WATER_CELLS = 400;
const HEAT_CELLS = 40;

/** Seconds to skin and to dry through; Infinity where not within `untilS`. */
export function fineFilm(
  film: FilmSpec,
  spells: readonly AirSpell[],
  untilS: number,
): { skinS: number; dryThroughS: number } {
  const thicknessM = film.thicknessMm / 1000;
  const share = film.waterPct / 100;
  const x0 = share / (1 - share);
  const solids = (film.densityKgM3 ?? ICING_DENSITY_KG_M3) * (1 - share);
  const { skinX } = filmStart(film, spells[0]!.air);
  const dz = thicknessM / WATER_CELLS;
  const x = new Float64Array(WATER_CELLS).fill(x0);
  const dIcing = thicknessM / HEAT_CELLS;
  const dBiscuit = BISCUIT_MM / 1000 / HEAT_CELLS;
  const laidC = film.roomC ?? spells[0]!.air.tempC;
  // From the surface down: icing, then biscuit.
  const t = new Float64Array(2 * HEAT_CELLS).fill(laidC);
  t.fill(film.laidAtC ?? laidC, 0, HEAT_CELLS);
  const crustCells = Math.min(CRUST_DEPTH_M, thicknessM / 2) / dz;
  let surfaceC = t[0]!;
  let [skinS, dryThroughS, s, dt] = [Infinity, Infinity, 0, 0.002];
  const crust = (): number => {
    let [sum, left] = [0, crustCells];
    for (let i = WATER_CELLS - 1; left > 0; i--, left--) sum += x[i]! * Math.min(1, left);
    return sum / crustCells;
  };
  let spell = 0;
  while (s < untilS && dryThroughS === Infinity) {
    while (spell + 1 < spells.length && spells[spell + 1]!.fromS <= s + 1e-9) {
      spell++;
      dt = 0.002;
    }
    const { air } = spells[spell]!;
    const step = Math.min(dt, (spells[spell + 1]?.fromS ?? untilS) - s, untilS - s);
    const [crustBefore, baseBefore] = [crust(), x[0]!];
    let meanC = 0;
    for (let j = 0; j < HEAT_CELLS; j++) meanC += t[j]! / HEAT_CELLS;
    const diffusivity =
      DIFFUSIVITY_M2_S *
      Math.exp((-ACTIVATION_J_MOL / GAS_J_MOL_K) * (1 / (meanC + ZERO_C_K) - 1 / DIFFUSIVITY_AT_K));
    // Surface temperature, flux and water of the step by bisection on the flux, given what both rows would be with it.
    const rows = waterRows(x, step, diffusivity, dz, solids);
    const topHeat = (2 * ICING_W_M_K) / dIcing;
    const balance = (flux: number): number => {
      surfaceC = surfaceFor(flux, air, t[0]!, topHeat, surfaceC);
      const topX = rows.at0 - rows.perFlux * flux;
      const surfaceX = topX - (flux * dz) / (2 * solids * diffusivity);
      return fluxOf(air, surfaceX, surfaceC) - flux;
    };
    let [low, high] = [-2e-3, 8e-3];
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (balance(middle) > 0) low = middle;
      else high = middle;
    }
    const flux = (low + high) / 2;
    balance(flux);
    rows.solve(flux);
    heatStep(t, step, flux, surfaceC, air, dIcing, dBiscuit);
    const rests = restingX(air.tempC, air.rhPct);
    const crossed = (before: number, after: number, limit: number): number =>
      s + (step * (before - limit)) / (before - after);
    if (skinS === Infinity && crust() <= skinX && rests < skinX) skinS = crossed(crustBefore, crust(), skinX);
    if (x[0]! <= DRY_THROUGH_X && rests < DRY_THROUGH_X)
      dryThroughS = crossed(baseBefore, x[0]!, DRY_THROUGH_X);
    s += step;
    dt = Math.min(dt * 1.05, 10);
  }
  return { skinS, dryThroughS };
}

/** What one step makes of the row of water: its top for a flux, and the whole once that is known. */
function waterRows(x: Float64Array, dt: number, diffusivity: number, dz: number, solids: number) {
  const r = (diffusivity * dt) / (dz * dz);
  const n = x.length;
  const [factor, known] = [new Float64Array(n), new Float64Array(n)];
  for (let i = 0; i < n; i++) {
    const ends = (i === 0 ? 0 : r) + (i === n - 1 ? 0 : r);
    const pivot = 1 + ends - (i === 0 ? 0 : r * factor[i - 1]!);
    factor[i] = i === n - 1 ? pivot : r / pivot;
    known[i] = (x[i]! + (i === 0 ? 0 : r * known[i - 1]!)) / pivot;
  }
  const perFlux = dt / (solids * dz) / factor[n - 1]!;
  return {
    at0: known[n - 1]!,
    perFlux,
    solve(flux: number): void {
      x[n - 1] = known[n - 1]! - perFlux * flux;
      for (let i = n - 2; i >= 0; i--) x[i] = known[i]! + factor[i]! * x[i + 1]!;
    },
  };
}

function convection(air: Air, surfaceC: number): number {
  if (air.hWm2K !== undefined) return air.hWm2K;
  const matter = airMatter((surfaceC + air.tempC) / 2);
  const natural = naturalWm2K(matter, surfaceC, air.tempC, TRAY_AREA_PER_EDGE_M);
  const forced = forcedWm2K(matter, Math.max(air.speedMs, LEAST_SPEED_MS), TRAY_LENGTH_M);
  return Math.cbrt(natural ** 3 + forced ** 3);
}

/** Where a surface that holds no heat comes to rest while this much water leaves it. */
function surfaceFor(flux: number, air: Air, icingC: number, topHeat: number, guessC: number): number {
  let surfaceC = guessC;
  for (let k = 0; k < 40; k++) {
    const h = convection(air, surfaceC);
    const around = air.aroundC ?? air.tempC;
    const hr = radiationWm2K(surfaceC, around);
    const next =
      (topHeat * icingC + h * air.tempC + hr * around - flux * evaporationJKg(surfaceC)) / (topHeat + h + hr);
    if (Math.abs(next - surfaceC) < 1e-7) return next;
    surfaceC = next;
  }
  return surfaceC;
}

function fluxOf(air: Air, surfaceX: number, surfaceC: number): number {
  const matter = airMatter((surfaceC + air.tempC) / 2);
  const conductance = massTransferMs(matter, convection(air, surfaceC)) * matter.densityKgM3;
  const activity = saturatedActivity(surfaceC) * (1 - Math.exp(-surfaceX / BOUND_WATER_X));
  return conductance * (lnDryShare(vapourPa(air)) - lnDryShare(activity * saturationPa(surfaceC)));
}

/** Backward Euler for heat through icing and biscuit, from the surface to the air under the tray. */
function heatStep(
  t: Float64Array,
  dt: number,
  flux: number,
  surfaceC: number,
  air: Air,
  dIcing: number,
  dBiscuit: number,
): void {
  const n = t.length;
  const half = (j: number): number =>
    j < HEAT_CELLS ? dIcing / 2 / ICING_W_M_K : dBiscuit / 2 / BISCUIT_W_M_K;
  const heat = (j: number): number =>
    j < HEAT_CELLS ? dIcing * ICING_HEAT_J_M3_K : dBiscuit * BISCUIT_HEAT_J_M3_K;
  const [h, around] = [convection(air, surfaceC), air.aroundC ?? air.tempC];
  const hr = radiationWm2K(surfaceC, around);
  // The surface holds no heat: what comes in by it is as through one resistance, from this temperature.
  const outsideC = (h * air.tempC + hr * around - flux * evaporationJKg(surfaceC)) / (h + hr);
  const top = 1 / (1 / (h + hr) + half(0));
  const under = 1 / (half(n - 1) + 1 / UNDER_TRAY_W_M2_K);
  const between = (j: number): number => 1 / (half(j) + half(j + 1));
  const [factor, known] = [new Float64Array(n), new Float64Array(n)];
  for (let j = 0; j < n; j++) {
    const a = dt / heat(j);
    const above = j === 0 ? top : between(j - 1);
    const below = j === n - 1 ? under : between(j);
    const fixed = (j === 0 ? a * top * outsideC : 0) + (j === n - 1 ? a * under * around : 0);
    const lower = j === 0 ? 0 : a * above;
    const pivot = 1 + a * (above + below) - lower * (j === 0 ? 0 : factor[j - 1]!);
    factor[j] = (a * below) / pivot;
    known[j] = (t[j]! + fixed + lower * (j === 0 ? 0 : known[j - 1]!)) / pivot;
  }
  t[n - 1] = known[n - 1]!;
  for (let j = n - 2; j >= 0; j--) t[j] = known[j]! + factor[j]! * t[j + 1]!;
}
