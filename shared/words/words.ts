import type { KitchenUnits } from "#shared/units.ts";
import type { englishFirst } from "./en/first.ts";
import type { english } from "./en/index.ts";

/** Every sentence and label of one language; the English dictionary gives the shape, and each other must match it. */
export type Words = ReturnType<typeof english>;

/** Those that a phone's first screen needs. */
export type FirstWords = ReturnType<typeof englishFirst>;

/** A language's words for a kitchen's units and time zone (an IANA name). */
export type Dictionary = (units: KitchenUnits, timeZone: string) => Words;
export type FirstDictionary = (units: KitchenUnits, timeZone: string) => FirstWords;
