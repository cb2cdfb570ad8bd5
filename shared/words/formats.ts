import {
  celsiusToFahrenheit,
  CUP_ML,
  type KitchenUnits,
  mmToInches,
  TBSP_ML,
  TSP_ML,
} from "#shared/units.ts";
import { makeMoments } from "./moments.ts";
import { isolated } from "./isolated.ts";
import { fraction } from "./fractions.ts";
import { makeSpans, type SpanTerms } from "./spans.ts";

export type Language = "en" | "es";

/** What a language has of its own in amounts: its places' conventions by the kitchen's units, and the names of units. */
export interface AmountTerms extends SpanTerms {
  language: Language;
  /** BCP 47 tags: number signs, lists and clock are the region's. */
  locales: Readonly<Record<KitchenUnits, string>>;
  cup: string;
  cups: string;
  tablespoon: string;
  teaspoon: string;
  inch: string;
}

/** Numbers, amounts, times, lists and names as one language and one kitchen write them. */
export interface Formats extends ReturnType<typeof makeSpans>, ReturnType<typeof makeMoments> {
  language: Language;
  /** BCP 47 tag, such as "en-GB". */
  locale: string;
  units: KitchenUnits;
  /** The name of an inch: "in". */
  inch: string;
  /** At most so many digits after the sign, none where they are noughts. */
  number: (value: number, digits?: number) => string;
  /** "12 cookies" from the two forms of a noun. Every language here has these two. */
  count: (count: number, forms: Plural) => string;
  /** The form alone. */
  plural: (count: number, forms: Plural) => string;
  /** "Lantern, Moon and Star". */
  and: (items: readonly string[]) => string;
  or: (items: readonly string[]) => string;
  /** "22.4 °C" or "72 °F". */
  temp: (tempC: number) => string;
  /** A difference: "2 °C" or "4 °F". */
  tempStep: (byC: number) => string;
  /** "2.4 mm", "14 cm"; in inches by thirty-seconds below a quarter, by sixteenths above: "3/32 in", "2½ in". */
  length: (lengthMm: number) => string;
  /** "80 × 94 mm", or in inches. */
  box: (widthMm: number, heightMm: number) => string;
  /** "24.5 cm²": icing is reckoned by it in every kitchen. */
  area: (areaCm2: number) => string;
  /** "12 mL", "1.3 L"; or what spoons and cups can measure: "2½ tsp", "3 tbsp", "1¼ cups". */
  volume: (volumeMl: number) => string;
  /** "4.5 g", "315 g", "1.25 kg": kitchens that weigh, weigh in grams. */
  mass: (massG: number) => string;
  /** "48–144 g", "800 g–1.2 kg", never broken over two lines. */
  massRange: (leastG: number, mostG: number) => string;
  /** "2½ tsp" of water, where the kitchen has spoons and it comes to more than a drop: a gram is a millilitre. */
  spoons: (waterG: number) => string | undefined;
  /** "12 g" of water, or with spoons "12 g (2½ tsp)". */
  water: (waterG: number) => string;
  /** "45 %". */
  percent: (pct: number) => string;
  /** A name that someone typed, set apart where its letters run the other way. */
  name: (name: string) => string;
  /** First letter up, for the start of a sentence. */
  sentence: (text: string) => string;
  /** With a full stop, where it does not end in one as "4:00 p.m." does. */
  stop: (text: string) => string;
}

export interface Plural {
  one: string;
  other: string;
}

/** `timeZone`: an IANA name. */
export function makeFormats(terms: AmountTerms, units: KitchenUnits, timeZone: string): Formats {
  const locale = terms.locales[units];
  const numbers = [0, 1, 2, 3].map(
    (maximumFractionDigits) => new Intl.NumberFormat(locale, { maximumFractionDigits, useGrouping: false }),
  );
  const number = (value: number, digits = 0): string => numbers[digits]?.format(value) ?? String(value);
  const length = (lengthMm: number): string => {
    if (units === "us") {
      const inches = mmToInches(lengthMm);
      return `${fraction(inches, inches < 0.25 ? 32 : 16)} ${terms.inch}`;
    }
    return lengthMm >= 100
      ? `${number(lengthMm / 10, 1)} cm`
      : `${number(lengthMm, lengthMm < 10 ? 1 : 0)} mm`;
  };
  const rules = new Intl.PluralRules(locale);
  const plural = (count: number, { one, other }: Plural): string =>
    rules.select(count) === "one" ? one : other;
  const and = new Intl.ListFormat(locale);
  const or = new Intl.ListFormat(locale, { type: "disjunction" });
  const mass = (massG: number): string =>
    massG >= 1000 ? `${number(massG / 1000, 2)} kg` : `${number(massG, massG < 10 ? 1 : 0)} g`;
  function volume(volumeMl: number): string {
    if (units === "metric")
      return volumeMl >= 1000
        ? `${number(volumeMl / 1000, 2)} L`
        : `${number(volumeMl, volumeMl < 10 ? 1 : 0)} mL`;
    if (volumeMl < 2 * TBSP_ML) return `${fraction(volumeMl / TSP_ML, 4)} ${terms.teaspoon}`;
    if (volumeMl < 3.75 * TBSP_ML) return `${fraction(volumeMl / TBSP_ML, 2)} ${terms.tablespoon}`;
    const cups = volumeMl / CUP_ML;
    return `${fraction(cups, 4)} ${cups < 1.125 ? terms.cup : terms.cups}`;
  }
  const spoons = (waterG: number): string | undefined =>
    units === "us" && waterG >= TSP_ML / 8 ? volume(waterG) : undefined;
  return {
    ...makeSpans(terms),
    ...makeMoments(locale, units, timeZone),
    language: terms.language,
    locale,
    units,
    inch: terms.inch,
    number,
    plural,
    count: (count, forms) => `${number(count)} ${plural(count, forms)}`,
    and: (items) => and.format(items),
    or: (items) => or.format(items),
    temp: (tempC) =>
      units === "metric" ? `${number(tempC, 1)} °C` : `${number(celsiusToFahrenheit(tempC))} °F`,
    tempStep: (byC) => (units === "metric" ? `${number(byC, 1)} °C` : `${number((byC * 9) / 5)} °F`),
    box(widthMm, heightMm) {
      return units === "us"
        ? `${length(widthMm)} × ${length(heightMm)}`
        : `${number(widthMm)} × ${number(heightMm)} mm`;
    },
    area: (areaCm2) => `${number(areaCm2, 1)} cm²`,
    length,
    volume,
    mass,
    massRange(leastG, mostG) {
      const [least, most] = [mass(leastG), mass(mostG)];
      const [figure, unit] = least.split(" ");
      return `${most.endsWith(` ${unit}`) ? figure : least}–\u2060${most}`.replaceAll(" ", "\u00A0");
    },
    spoons,
    water(waterG) {
      const inSpoons = spoons(waterG);
      return inSpoons === undefined ? mass(waterG) : `${mass(waterG)} (${inSpoons})`;
    },
    percent: (pct) => `${number(pct)}\u00A0%`,
    name: isolated,
    stop: (text) => (text.endsWith(".") ? text : `${text}.`),
    sentence: (text) => text.charAt(0).toLocaleUpperCase(locale) + text.slice(1),
  };
}
