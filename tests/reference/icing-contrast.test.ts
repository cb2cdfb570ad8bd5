import { describe, expect, test } from "vitest";
import { lightnessOf } from "#shared/icing/contrast.ts";

/** L* of a grey by the published formulas: IEC 61966-2-1 decoding, then CIE 1976, with Yn = 1. */
function greyLightness(level: number): number {
  const encoded = level / 255;
  const y = encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
  return y > (6 / 29) ** 3 ? 116 * Math.cbrt(y) - 16 : (29 / 3) ** 3 * y;
}

describe("I4 lightness is CIE 1976 L*, D65", () => {
  test.each([0x00, 0x03, 0x20, 0x77, 0xa0, 0xff])("grey %i by the formula", (level) => {
    const hex = `#${level.toString(16).padStart(2, "0").repeat(3)}`;
    expect(lightnessOf(hex)).toBeCloseTo(greyLightness(level), 2);
  });

  // Published for the sRGB primaries (Lindbloom's calculator, from memory): the tolerance covers rounded matrices.
  test.each([
    ["#ffffff", 100],
    ["#000000", 0],
    ["#777777", 50.03],
    ["#ff0000", 53.24],
    ["#00ff00", 87.73],
    ["#0000ff", 32.3],
  ])("%s is %f", (hex, lightness) => {
    expect(Math.abs(lightnessOf(hex) - lightness)).toBeLessThan(0.02);
  });
});
