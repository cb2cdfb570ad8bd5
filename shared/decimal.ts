/** No figure anyone sends is longer. What is longer is not looked at: text from outside may be of any length. */
const LONGEST = 40;
/** Each character can be read in one way only, so that no text takes longer than its length. */
const DECIMAL = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)$/;

/** The number that decimal text stands for ("22.5", " -.5 "); undefined where it is none. */
export function decimalOf(text: string): number | undefined {
  if (text.length > LONGEST) return undefined;
  const trimmed = text.trim();
  return DECIMAL.test(trimmed) ? Number(trimmed) : undefined;
}
