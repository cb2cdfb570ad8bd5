import { modeLab65, modeRgb, useMode } from "culori/fn";

useMode(modeRgb);
const toLab = useMode(modeLab65);

/** A lightness difference above this shows if one colour bleeds into the other: common practice, no source. */
export const BLEED_SHOWS_ABOVE = 25;

/** CIE 1976 lightness L* (D65), 0–100, of a colour as #rgb or #rrggbb. RangeError for anything else. */
export function lightnessOf(hex: string): number {
  const lab = /^#([0-9a-f]{3}|[0-9a-f]{6})$/i.test(hex) ? toLab(hex) : undefined;
  if (lab === undefined) throw new RangeError(`colour must be #rgb or #rrggbb, got ${hex}`);
  return lab.l;
}

/** |ΔL*| of two colours, 0–100. */
export const lightnessDifference = (a: string, b: string): number =>
  Math.abs(lightnessOf(a) - lightnessOf(b));

/** Whether a bleed between these neighbours would be seen. */
export const showsIfItBleeds = (a: string, b: string): boolean =>
  lightnessDifference(a, b) > BLEED_SHOWS_ABOVE;
