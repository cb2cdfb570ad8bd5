/** A contact burn threshold of a bare surface: skin burns when touched this long at or above this temperature. */
export interface BurnThreshold {
  material: "bare metal" | "coated metal" | "ceramic or glass" | "plastic" | "wood";
  /** 28 800 s stands for 8 h and longer. */
  contactS: 1 | 10 | 60 | 600 | 28_800;
  fromC: number;
  /** Upper end where the standard gives a band; the same as `fromC` otherwise. */
  toC: number;
  source: string;
}

const EN_563 = "EN 563:1994, now ISO 13732-1 (quoted)";
const EN_563_MEMORY = "EN 563:1994, 10 s column from memory";

const material = (
  name: BurnThreshold["material"],
  second: readonly [number, number],
  tenSecondsC: number,
  minuteC: number,
): readonly BurnThreshold[] => [
  { material: name, contactS: 1, fromC: second[0], toC: second[1], source: EN_563 },
  { material: name, contactS: 10, fromC: tenSecondsC, toC: tenSecondsC, source: EN_563_MEMORY },
  { material: name, contactS: 60, fromC: minuteC, toC: minuteC, source: EN_563 },
  { material: name, contactS: 600, fromC: 48, toC: 48, source: EN_563 },
  { material: name, contactS: 28_800, fromC: 43, toC: 43, source: EN_563 },
];

/** Burn thresholds by material and time of contact. */
export const BURN_THRESHOLDS: readonly BurnThreshold[] = [
  ...material("bare metal", [65, 70], 55, 51),
  ...material("coated metal", [75, 80], 60, 51),
  ...material("ceramic or glass", [80, 86], 66, 56),
  ...material("plastic", [86, 93], 71, 60),
  ...material("wood", [110, 140], 88, 60),
];

/** Below this a bare metal tray can be touched for a minute; above the other, even a second burns. °C, EN 563. */
export const TOUCH_SAFE_C = 51;
export const ONE_SECOND_BURN_C = 65;

/** A tray as a lump of metal with what lies on it. */
export interface HotTray {
  /** One face. */
  areaM2: number;
  thicknessMm: number;
  densityKgM3: number;
  heatCapacityJkgK: number;
  /** Heat held by the cookies, J/K: they keep the metal warm. */
  loadJK: number;
  /** Convection and radiation from each of the two faces. */
  hWm2K: number;
}

/**
 * A half-size aluminium sheet with a dozen cookies of 30 g at 1.8 kJ/kgK on it. 5 W/m²K is still air over bright
 * metal, the slow end, so the time errs on the long side.
 */
export const DEFAULT_TRAY: HotTray = {
  areaM2: 0.15,
  thicknessMm: 1,
  densityKgM3: 2700,
  heatCapacityJkgK: 900,
  loadJK: 650,
  hWm2K: 5,
};

/**
 * Seconds for a lumped body to cool to `targetC`: (C / hA) ln((T0 − T∞)/(T − T∞)); 0 when it is there already.
 * Incropera, Fundamentals of Heat and Mass Transfer, eq. 5.5; good while the Biot number is below 0.1.
 */
export function coolingTimeS(timeConstantS: number, fromC: number, targetC: number, airC: number): number {
  if (fromC <= targetC) return 0;
  return timeConstantS * Math.log((fromC - airC) / (targetC - airC));
}

/** C / hA in s, both faces cooling. */
export function trayTimeConstantS(tray: HotTray): number {
  const metalJK = tray.areaM2 * (tray.thicknessMm / 1000) * tray.densityKgM3 * tray.heatCapacityJkgK;
  return (metalJK + tray.loadJK) / (tray.hWm2K * 2 * tray.areaM2);
}

export interface TrayHotUntil {
  /** Seconds after leaving the heat until the tray is below 51 °C; 0 when it never was hot. */
  safeAfterS: number;
  /** Seconds during which even a one-second touch burns; left out when it is not that hot. */
  oneSecondBurnAfterS?: number;
}

/** How long a tray stays hot to the touch. `leftAtC` up to 300 °C, `roomC` −10 to 45 °C; RangeError outside. */
export function trayHotUntil(options: {
  leftAtC: number;
  roomC: number;
  tray?: Partial<HotTray>;
}): TrayHotUntil {
  const { leftAtC, roomC } = options;
  if (!(leftAtC >= -10 && leftAtC <= 300)) throw new RangeError(`leftAtC must be -10–300 °C, got ${leftAtC}`);
  if (!(roomC >= -10 && roomC <= 45)) throw new RangeError(`roomC must be -10–45 °C, got ${roomC}`);
  const tauS = trayTimeConstantS({ ...DEFAULT_TRAY, ...options.tray });
  const safeAfterS = coolingTimeS(tauS, leftAtC, TOUCH_SAFE_C, roomC);
  if (leftAtC <= ONE_SECOND_BURN_C) return { safeAfterS };
  return { safeAfterS, oneSecondBurnAfterS: coolingTimeS(tauS, leftAtC, ONE_SECOND_BURN_C, roomC) };
}
