/** What a kitchen reads: grams and millilitres, or cups, spoons, inches and °F. Inside, everything is metric. */
export type KitchenUnits = "metric" | "us";

/** US cup, tablespoon and teaspoon in mL, exact (NIST SP 811 app. B; the gallon is 231 in³). */
export const CUP_ML = 236.5882365;
export const TBSP_ML = 14.78676478125;
export const TSP_ML = 4.92892159375;
/** Inch in mm, exact. */
export const INCH_MM = 25.4;

export const celsiusToFahrenheit = (tempC: number): number => (tempC * 9) / 5 + 32;
export const fahrenheitToCelsius = (tempF: number): number => ((tempF - 32) * 5) / 9;
export const inchesToMm = (lengthIn: number): number => lengthIn * INCH_MM;
export const mmToInches = (lengthMm: number): number => lengthMm / INCH_MM;
export const tspToMl = (tsp: number): number => tsp * TSP_ML;
export const mlToTsp = (volumeMl: number): number => volumeMl / TSP_ML;

/** Fractions of one character. */
const GLYPHS: ReadonlyMap<string, number> = new Map([
  ["⅛", 1 / 8],
  ["¼", 1 / 4],
  ["⅓", 1 / 3],
  ["⅜", 3 / 8],
  ["½", 1 / 2],
  ["⅝", 5 / 8],
  ["⅔", 2 / 3],
  ["¾", 3 / 4],
  ["⅞", 7 / 8],
]);

/** No amount is typed longer than this: nothing longer is looked at. */
const LONGEST_AMOUNT = 20;
const DECIMAL = /^[-−]?(?:\d{1,9}(?:[.,]\d{0,9})?|[.,]\d{1,9})$/;
const MIXED = /^(?:(\d{1,6})(?: ?[-–] ?| ))?(\d{1,4}) ?[/⁄] ?(\d{1,4})$/;
const WITH_GLYPH = /^(\d{1,6})?(?: ?[-–] ?| ?)([⅛¼⅜½⅝¾⅞⅓⅔])$/;
/** "1,500": fifteen hundred to some, one and a half to others. "0,125" and "12,5" can be read one way only. */
const AMBIGUOUS = /^[-−]?[1-9]\d{0,2},\d{3}$/;

/**
 * What a hand typed as an amount: "3.5", "3,5", "-4", "3 1/2", "3-1/2", "3½", "3/8". Undefined where it is no amount, or
 * can be read in two ways ("1,500").
 */
export function parseAmount(text: string): number | undefined {
  const typed = text.trim();
  if (typed.length > LONGEST_AMOUNT || AMBIGUOUS.test(typed)) return undefined;
  if (DECIMAL.test(typed)) return Number(typed.replace(",", ".").replace("−", "-"));
  const glyph = WITH_GLYPH.exec(typed);
  if (glyph !== null && !/^[-–]/.test(typed))
    return Number(glyph[1] ?? 0) + (GLYPHS.get(glyph[2] ?? "") ?? 0);
  const mixed = MIXED.exec(typed.replace(/\s+/g, " "));
  const bottom = Number(mixed?.[3] ?? 0);
  if (mixed === null || bottom === 0) return undefined;
  return Number(mixed[1] ?? 0) + Number(mixed[2]) / bottom;
}

/** Whether a temperature lies above another as the kitchen reads them: 65.6 °C and a limit typed as 150 °F are both 150 °F. */
export function isHotterAsRead(tempC: number, limitC: number, units: KitchenUnits): boolean {
  const asRead = (celsius: number): number =>
    units === "us" ? Math.round(celsiusToFahrenheit(celsius)) : Math.round(celsius * 10) / 10;
  return tempC > limitC && asRead(tempC) !== asRead(limitC);
}
