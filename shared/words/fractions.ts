const GLYPHS: Readonly<Record<string, string>> = {
  "1/8": "⅛",
  "1/4": "¼",
  "3/8": "⅜",
  "1/2": "½",
  "5/8": "⅝",
  "3/4": "¾",
  "7/8": "⅞",
};

/** A number in whole parts of 1/`parts`, a power of two: 2.5 → "2½", 0.09375 → "3/32", 2.1875 → "2 3/16". */
export function fraction(value: number, parts: number): string {
  const count = Math.round(value * parts);
  const whole = Math.floor(count / parts);
  let top = count % parts;
  let bottom = parts;
  if (top === 0) return String(whole);
  while (top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  const glyph = GLYPHS[`${top}/${bottom}`];
  if (whole === 0) return glyph ?? `${top}/${bottom}`;
  return glyph === undefined ? `${whole} ${top}/${bottom}` : `${whole}${glyph}`;
}
