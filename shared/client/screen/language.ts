import { type Accessor, createContext, createMemo, createSignal, useContext } from "solid-js";
import type { KitchenUnits } from "#shared/units.ts";
import type { Language } from "#shared/words/formats.ts";
import { isLanguage, languageOf } from "#shared/words/languages.ts";
import type { Dictionary, Words } from "#shared/words/words.ts";

const KEY = "traytide.language";

/** The language of this screen: as it was chosen here, else the first of the browser's that there is. */
export interface LanguageChoice {
  language: Accessor<Language>;
  dictionary: Accessor<Dictionary>;
  /** Loads it, shows it, and remembers it on this device. */
  choose(language: Language): Promise<void>;
}

/** Loads the language a page starts in, and follows what another page of this device chooses. Rejects where its file cannot be had. */
export async function startLanguage(window: Window): Promise<LanguageChoice> {
  const kept = window.localStorage.getItem(KEY);
  const first = isLanguage(kept) ? kept : languageOf(window.navigator.languages);
  const [shown, show] = createSignal({ language: first, dictionary: await loadDictionary(first) });
  window.document.documentElement.lang = first;
  async function become(language: Language): Promise<void> {
    const dictionary = await loadDictionary(language);
    window.document.documentElement.lang = language;
    show({ language, dictionary });
  }
  window.addEventListener("storage", ({ key, newValue }) => {
    if (key === KEY && isLanguage(newValue)) become(newValue).catch(() => undefined);
  });
  return {
    language: () => shown().language,
    dictionary: () => shown().dictionary,
    async choose(language) {
      await become(language);
      window.localStorage.setItem(KEY, language);
    },
  };
}

/** Asks the server in the language that is shown. */
export const fetchIn =
  (fetch: typeof globalThis.fetch, { language }: Pick<LanguageChoice, "language">): typeof globalThis.fetch =>
  (input, init) => {
    const headers = new Headers(init?.headers);
    headers.set("accept-language", language());
    return fetch(input, { ...init, headers });
  };

/** Loads one language alone: a screen never has two to fetch. */
const loadDictionary = async (language: Language): Promise<Dictionary> =>
  language === "es"
    ? (await import("#shared/words/es/index.ts")).spanish
    : (await import("#shared/words/en/index.ts")).english;

/** What the words of a kitchen depend on. */
export interface KitchenPlace {
  units: KitchenUnits;
  timeZone: string;
}

/** Before a kitchen is known: as this browser's own region has it. */
export const placeOfBrowser = ({ language }: Navigator): KitchenPlace => ({
  units: /-US$/i.test(language) ? "us" : "metric",
  timeZone: new Intl.DateTimeFormat().resolvedOptions().timeZone,
});

/** The words for a kitchen, made anew only when the language, its units or its time zone change. */
export function createWords(choice: LanguageChoice, place: Accessor<KitchenPlace>): Accessor<Words> {
  const units = createMemo(() => place().units);
  const timeZone = createMemo(() => place().timeZone);
  return createMemo(() => choice.dictionary()(units(), timeZone()));
}

export const WordsContext = createContext<Accessor<Words>>();
export const LanguageContext = createContext<LanguageChoice>();

/** The words of the screen that is shown. Throws outside of one. */
export function useWords(): Accessor<Words> {
  const words = useContext(WordsContext);
  if (words === undefined) throw new Error("no screen gives its words here");
  return words;
}

/** The language of the screen that is shown, to choose another. Throws outside of one. */
export function useLanguage(): LanguageChoice {
  const choice = useContext(LanguageContext);
  if (choice === undefined) throw new Error("no screen gives its language here");
  return choice;
}
