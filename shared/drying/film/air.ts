import { ZERO_C_K } from "./constants.ts";

/** Moist air at a tray. */
export interface Air {
  tempC: number;
  rhPct: number;
  speedMs: number;
  /** In place of the worked-out heat transfer coefficient: a hot-air jet's, W/(m² K). */
  hWm2K?: number;
  /** Temperature of what the film radiates to and of the air beneath the tray, °C; `tempC` when left out. */
  aroundC?: number;
}

/** Air from a moment on, the first from 0, seconds on the film's clock; the last goes on. */
export interface AirSpell {
  fromS: number;
  air: Air;
}

/** The same spells, with one that begins at this moment. */
export function partedAt(spells: readonly AirSpell[], atS: number): readonly AirSpell[] {
  const before = spells.filter(({ fromS }) => fromS < atS);
  const at = before.length;
  if (at === 0 || spells[at]?.fromS === atS) return spells;
  return [...spells.slice(0, at), { fromS: atS, air: spells[at - 1]!.air }, ...spells.slice(at)];
}

/**
 * Saturation pressure of water over liquid, Pa: ASHRAE Handbook Fundamentals 2017 ch. 1 eq. 6, 0–200 °C. Kept over
 * liquid below 0 °C too, since icing does not freeze there.
 */
export function saturationPa(tempC: number): number {
  const k = tempC + ZERO_C_K;
  return Math.exp(
    -5.8002206e3 / k +
      1.3914993 +
      k * (-4.8640239e-2 + k * (4.1764768e-5 - 1.4452093e-8 * k)) +
      6.5459673 * Math.log(k),
  );
}

/** Vapour pressure, Pa. */
export function vapourPa(air: Pick<Air, "tempC" | "rhPct">): number {
  return (air.rhPct / 100) * saturationPa(air.tempC);
}

/** Humidity, %, of air at `tempC` that holds this vapour pressure, at most 100. */
export function rhPctOf(vapourPa: number, tempC: number): number {
  return Math.min(100, (100 * vapourPa) / saturationPa(tempC));
}

/** Room air brought to another temperature with its moisture kept: an oven or a cabinet that is not vented. */
export function warmed(room: Pick<Air, "tempC" | "rhPct">, tempC: number, speedMs: number): Air {
  return { tempC, rhPct: rhPctOf(vapourPa(room), tempC), speedMs };
}
