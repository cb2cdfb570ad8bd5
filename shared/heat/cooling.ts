/** Below this a bare metal tray can be touched for a minute, °C: EN 563:1994, now ISO 13732-1 (quoted). */
export const TOUCH_SAFE_C = 51;

/** A tray as a lump of metal with what lies on it. */
export interface HotTray {
  /** One face. */
  areaM2: number;
  thicknessMm: number;
  densityKgM3: number;
  heatCapacityJkgK: number;
  /** Convection and radiation from each of the two faces. */
  hWm2K: number;
}

/** A half-size aluminium sheet. 5 W/m²K is still air over bright metal, the slow end, so the time errs on the long side. */
export const DEFAULT_TRAY: HotTray = {
  areaM2: 0.15,
  thicknessMm: 1,
  densityKgM3: 2700,
  heatCapacityJkgK: 900,
  hWm2K: 5,
};

/** Heat a cookie holds, J/K: 30 g at 1.8 kJ/kgK. It keeps the metal warm. */
const COOKIE_J_K = 54;

/**
 * Seconds for a lumped body to cool to `targetC`: (C / hA) ln((T0 − T∞)/(T − T∞)); 0 when it is there already.
 * Incropera, Fundamentals of Heat and Mass Transfer, eq. 5.5; good while the Biot number is below 0.1.
 */
export function coolingTimeS(timeConstantS: number, fromC: number, targetC: number, airC: number): number {
  if (fromC <= targetC) return 0;
  return timeConstantS * Math.log((fromC - airC) / (targetC - airC));
}

/** C / hA in s, both faces cooling, with so many cookies on it. */
export function trayTimeConstantS(tray: HotTray, cookies: number): number {
  const metalJK = tray.areaM2 * (tray.thicknessMm / 1000) * tray.densityKgM3 * tray.heatCapacityJkgK;
  return (metalJK + cookies * COOKIE_J_K) / (tray.hWm2K * 2 * tray.areaM2);
}

/**
 * Seconds after leaving the heat until a tray of so many cookies is below 51 °C; 0 when it never was hot. `leftAtC` up to
 * 300 °C, `roomC` −10 to 45 °C; RangeError outside.
 */
export function traySafeAfterS(leftAtC: number, roomC: number, cookies: number): number {
  if (!(leftAtC >= -10 && leftAtC <= 300)) throw new RangeError(`leftAtC must be -10–300 °C, got ${leftAtC}`);
  if (!(roomC >= -10 && roomC <= 45)) throw new RangeError(`roomC must be -10–45 °C, got ${roomC}`);
  return coolingTimeS(trayTimeConstantS(DEFAULT_TRAY, cookies), leftAtC, TOUCH_SAFE_C, roomC);
}
