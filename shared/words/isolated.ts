/** Letters written from right to left: Hebrew, Arabic, Syriac, Thaana, N'Ko and their presentation forms. */
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff]/;
const FIRST_STRONG_ISOLATE = "\u2068";
const POP_ISOLATE = "\u2069";

/** A name for the midst of a sentence: one that runs the other way turns none of the words beside it (Unicode UAX #9). */
export const isolated = (name: string): string =>
  RIGHT_TO_LEFT.test(name) ? FIRST_STRONG_ISOLATE + name + POP_ISOLATE : name;
