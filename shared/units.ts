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

const GLYPHS: Readonly<Record<string, string>> = {
  "1/8": "⅛",
  "1/4": "¼",
  "3/8": "⅜",
  "1/2": "½",
  "5/8": "⅝",
  "3/4": "¾",
  "7/8": "⅞",
};

const GLYPH_VALUES: ReadonlyMap<string, number> = new Map([
  ...Object.entries(GLYPHS).map(([fraction, glyph]): [string, number] => {
    const [top, bottom] = fraction.split("/").map(Number);
    return [glyph, (top ?? 0) / (bottom ?? 1)];
  }),
  ["⅓", 1 / 3],
  ["⅔", 2 / 3],
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
    return Number(glyph[1] ?? 0) + (GLYPH_VALUES.get(glyph[2] ?? "") ?? 0);
  const mixed = MIXED.exec(typed.replace(/\s+/g, " "));
  const bottom = Number(mixed?.[3] ?? 0);
  if (mixed === null || bottom === 0) return undefined;
  return Number(mixed[1] ?? 0) + Number(mixed[2]) / bottom;
}

/** A number in whole parts of 1/`parts`, a power of two: 2.5 → "2½", 0.09375 → "3/32", 2.1875 → "2 3/16". */
function asFraction(value: number, parts: number): string {
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

const trimmed = (value: number, digits: number): string => String(Number(value.toFixed(digits)));

/** "22.4 °C" or "72 °F". */
export function formatTemp(tempC: number, units: KitchenUnits): string {
  return units === "metric" ? `${trimmed(tempC, 1)} °C` : `${trimmed(celsiusToFahrenheit(tempC), 0)} °F`;
}

/** Whether a temperature lies above another as the kitchen reads them: 65.6 °C and a limit typed as 150 °F are both 150 °F. */
export const isHotterAsRead = (tempC: number, limitC: number, units: KitchenUnits): boolean =>
  tempC > limitC && formatTemp(tempC, units) !== formatTemp(limitC, units);

/** "2.4 mm", "12 mm", "14 cm"; in inches by thirty-seconds below a quarter, by sixteenths above: "3/32 in", "2½ in". */
export function formatLength(lengthMm: number, units: KitchenUnits): string {
  if (units === "us") {
    const inches = mmToInches(lengthMm);
    return `${asFraction(inches, inches < 0.25 ? 32 : 16)} in`;
  }
  if (lengthMm >= 100) return `${trimmed(lengthMm / 10, 1)} cm`;
  return `${trimmed(lengthMm, lengthMm < 10 ? 1 : 0)} mm`;
}

/** "12 mL", "1.3 L"; or what spoons and cups can measure: "2½ tsp", "3 tbsp", "1¼ cups". */
export function formatVolume(volumeMl: number, units: KitchenUnits): string {
  if (units === "metric") {
    if (volumeMl >= 1000) return `${trimmed(volumeMl / 1000, 2)} L`;
    return `${trimmed(volumeMl, volumeMl < 10 ? 1 : 0)} mL`;
  }
  if (volumeMl < 2 * TBSP_ML) return `${asFraction(volumeMl / TSP_ML, 4)} tsp`;
  if (volumeMl < 3.75 * TBSP_ML) return `${asFraction(volumeMl / TBSP_ML, 2)} tbsp`;
  const cups = volumeMl / CUP_ML;
  return `${asFraction(cups, 4)} ${cups < 1.125 ? "cup" : "cups"}`;
}

/** "4.5 g", "315 g", "1.25 kg": kitchens that weigh, weigh in grams. */
export function formatMass(massG: number): string {
  if (massG >= 1000) return `${trimmed(massG / 1000, 2)} kg`;
  return `${trimmed(massG, massG < 10 ? 1 : 0)} g`;
}

const twoDigits = (value: number): string => String(value).padStart(2, "0");

const HOUR = 60;
const DAY = 24 * HOUR;
const inHalves = (value: number): string => asFraction(value, 2);

/** A span that happened or is left, in minutes: "4 min", "1 h 20", "2½ h", "15 h", "2½ days". Below nought counts as nought. */
export function formatSpan(minutes: number): string {
  const whole = Math.round(Math.max(0, minutes));
  if (whole < 1) return "under 1 min";
  if (whole < HOUR) return `${whole} min`;
  if (whole >= 2 * DAY) return `${inHalves(whole / DAY)} days`;
  if (whole >= 10 * HOUR) return `${Math.round(whole / HOUR)} h`;
  const fives = Math.round(whole / 5) * 5;
  const rest = fives % HOUR;
  if (rest % 30 === 0) return `${inHalves(fives / HOUR)} h`;
  return `${Math.floor(fives / HOUR)} h ${twoDigits(rest)}`;
}

/**
 * Earliest to latest, in minutes from now: "4–10 min", "45 min–2½ h", "2½–4½ h", "14–17 h". Rounded outwards, so
 * that the words never promise more than the sums do.
 */
export function formatBand(earliestMin: number, latestMin: number): string {
  const earliest = Math.max(0, earliestMin);
  const latest = Math.max(earliest, latestMin);
  if (latest <= 0) return "now";
  const last = bandUnit(latest);
  const first = earliest >= last.lengthMin ? last : bandUnit(earliest);
  const from = outwards(earliest, first, "down");
  const until = outwards(latest, last, "up");
  const to = `${inHalves(until)} ${last.name}`;
  if (from === 0) return `under ${to}`;
  if (first === last && from === until) return `about ${to}`;
  return first === last ? `${inHalves(from)}–${to}` : `${inHalves(from)} ${first.name}–${to}`;
}

interface BandUnit {
  name: "min" | "h" | "days";
  lengthMin: number;
  /** Smallest step said, in this unit. */
  step: number;
}

const MINUTES: BandUnit = { name: "min", lengthMin: 1, step: 1 };
const HALF_HOURS: BandUnit = { name: "h", lengthMin: HOUR, step: 0.5 };
const HOURS: BandUnit = { name: "h", lengthMin: HOUR, step: 1 };
const HALF_DAYS: BandUnit = { name: "days", lengthMin: DAY, step: 0.5 };

function bandUnit(minutes: number): BandUnit {
  if (minutes <= 90) return MINUTES;
  if (minutes <= 10 * HOUR) return HALF_HOURS;
  return minutes <= 2 * DAY ? HOURS : HALF_DAYS;
}

function outwards(minutes: number, unit: BandUnit, way: "up" | "down"): number {
  const steps = minutes / (unit.lengthMin * unit.step);
  const hair = 1e-9 * Math.max(1, steps);
  return (way === "up" ? Math.ceil(steps - hair) : Math.floor(steps + hair)) * unit.step;
}

/** A clock that runs, in seconds: "0:07", "1:24", "1:02:03". Whole seconds passed. */
export function formatStopwatch(seconds: number): string {
  const whole = Math.floor(Math.max(0, seconds));
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor(whole / 60) % 60;
  return hours > 0
    ? `${hours}:${twoDigits(minutes)}:${twoDigits(whole % 60)}`
    : `${minutes}:${twoDigits(whole % 60)}`;
}
