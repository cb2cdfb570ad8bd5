/** Shares of sRGB's red, green and blue in luminance, D65 (IEC 61966-2-1). */
const LUMINANCE = [0.2126, 0.7152, 0.0722] as const;

/** A lightness difference above this shows if one colour bleeds into the other: common practice, no source. */
export const BLEED_SHOWS_ABOVE = 25;

/** CIE 1976 lightness L* (D65), 0–100, of a colour as #rgb or #rrggbb. RangeError for anything else. */
export function lightnessOf(hex: string): number {
  if (!/^#([0-9a-f]{3}|[0-9a-f]{6})$/i.test(hex))
    throw new RangeError(`colour must be #rgb or #rrggbb, got ${hex}`);
  const length = (hex.length - 1) / 3;
  const luminance = LUMINANCE.reduce((sum, share, k) => {
    const digits = hex.slice(1 + k * length, 1 + (k + 1) * length);
    return sum + share * decoded(Number.parseInt(length === 1 ? digits + digits : digits, 16) / 255);
  }, 0);
  return luminance > (6 / 29) ** 3 ? 116 * Math.cbrt(luminance) - 16 : (29 / 3) ** 3 * luminance;
}

/** The light of a channel's value, both 0–1 (IEC 61966-2-1). */
const decoded = (value: number): number =>
  value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;

/** |ΔL*| of two colours, 0–100. */
export const lightnessDifference = (a: string, b: string): number =>
  Math.abs(lightnessOf(a) - lightnessOf(b));

/** Whether a bleed between these neighbours would be seen. */
export const showsIfItBleeds = (a: string, b: string): boolean =>
  lightnessDifference(a, b) > BLEED_SHOWS_ABOVE;
