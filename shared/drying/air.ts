import { PRESSURE_PA, WATER_AIR_MASS_RATIO, ZERO_C_K } from "./constants.ts";

/** Moist air at a tray. `hWm2K` overrides the worked-out heat transfer coefficient: a hot-air jet. */
export interface Air {
  tempC: number;
  rhPct: number;
  speedMs: number;
  hWm2K?: number;
}

/** Air from a moment on, the first from 0, seconds on the film's clock; the last goes on. */
export interface AirSpell {
  fromS: number;
  air: Air;
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

/** Humidity ratio, kg water a kg dry air. */
export function humidityRatio(vapourPa: number): number {
  return (WATER_AIR_MASS_RATIO * vapourPa) / (PRESSURE_PA - vapourPa);
}

/** Humidity, %, of air at `tempC` that holds this vapour pressure, at most 100. */
export function rhPctOf(vapourPa: number, tempC: number): number {
  return Math.min(100, (100 * vapourPa) / saturationPa(tempC));
}

/** Dew point, °C, of a vapour pressure above 300 Pa or so: Newton on the saturation curve, to 1e-6 K. */
export function dewPointC(vapourPa: number): number {
  const ln = Math.log(vapourPa / 610.94);
  let tempC = (243.04 * ln) / (17.625 - ln);
  for (let i = 0; i < 20; i++) {
    const slope = Math.log(saturationPa(tempC + 0.01) / saturationPa(tempC - 0.01)) / 0.02;
    const step = Math.log(vapourPa / saturationPa(tempC)) / slope;
    tempC += step;
    if (Math.abs(step) < 1e-6) break;
  }
  return tempC;
}

/** Wet bulb, °C, above freezing: ASHRAE 2017 ch. 1 eq. 33 solved by bisection, to 1e-6 K. */
export function wetBulbC(air: Pick<Air, "tempC" | "rhPct">): number {
  const ratio = humidityRatio(vapourPa(air));
  let low = -30;
  let high = air.tempC;
  while (high - low > 1e-6) {
    const wet = (low + high) / 2;
    const saturated = humidityRatio(saturationPa(wet));
    const held =
      ((2501 - 2.326 * wet) * saturated - 1.006 * (air.tempC - wet)) /
      (2501 + 1.86 * air.tempC - 4.186 * wet);
    if (held > ratio) high = wet;
    else low = wet;
  }
  return (low + high) / 2;
}

/** Room air brought to another temperature with its moisture kept: an oven or a cabinet that is not vented. */
export function warmed(room: Pick<Air, "tempC" | "rhPct">, tempC: number, speedMs: number): Air {
  return { tempC, rhPct: rhPctOf(vapourPa(room), tempC), speedMs };
}
