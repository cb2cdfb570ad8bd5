import type { Language } from "#shared/words/formats.ts";
import { isLanguage, languageOf } from "#shared/words/languages.ts";
import type { FirstDictionary } from "#shared/words/words.ts";

/** Where the language that was chosen on a device is kept. */
export const LANGUAGE_KEY = "traytide.language";

/** The language that a page starts in. */
export function firstLanguage({ localStorage, navigator }: Window): Language {
  const kept = localStorage.getItem(LANGUAGE_KEY);
  return isLanguage(kept) ? kept : languageOf(navigator.languages);
}

/** The words of a first screen, or all. */
export type HowMuch = "first" | "whole";

/** A language's words, each a file of its own: a screen never has two languages to fetch. */
export const DICTIONARIES: Readonly<Record<HowMuch, Record<Language, () => Promise<FirstDictionary>>>> = {
  first: {
    en: async () => (await import("#shared/words/en/first.ts")).englishFirst,
    es: async () => (await import("#shared/words/es/first.ts")).spanishFirst,
  },
  whole: {
    en: async () => (await import("#shared/words/en/index.ts")).english,
    es: async () => (await import("#shared/words/es/index.ts")).spanish,
  },
};
