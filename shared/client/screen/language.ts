import {
  type Accessor,
  createContext,
  createMemo,
  createRenderEffect,
  createRoot,
  createSignal,
  useContext,
} from "solid-js";
import type { KitchenUnits } from "#shared/units.ts";
import type { Language } from "#shared/words/formats.ts";
import { isLanguage } from "#shared/words/languages.ts";
import { DICTIONARIES, firstLanguage, type HowMuch, LANGUAGE_KEY } from "./dictionaries.ts";
import type { FirstDictionary, FirstWords, Words } from "#shared/words/words.ts";

/** The language of this screen: as it was chosen here, else the first of the browser's that there is. */
export interface LanguageChoice {
  language: Accessor<Language>;
  /** All of its words once they are here, those of a first screen before. */
  dictionary: Accessor<FirstDictionary>;
  /** Whether all words are here. */
  isWhole: Accessor<boolean>;
  /** Loads what a first screen did without. */
  loadWhole(): Promise<void>;
  /** Loads it, shows it, and remembers it on this device. */
  choose(language: Language): Promise<void>;
}

/**
 * Loads the words a page starts with, and follows what another page of this device chooses. `how`: with all words, or with
 * those of a first screen. Rejects where they cannot be had.
 */
export async function startLanguage(window: Window, how: HowMuch): Promise<LanguageChoice> {
  const load = async (language: Language, how: HowMuch) => ({
    language,
    isWhole: how === "whole",
    dictionary: await DICTIONARIES[how][language](),
  });
  const [shown, show] = createSignal(await load(firstLanguage(window), how));
  const become = async (language: Language, how: HowMuch): Promise<void> =>
    void show(await load(language, how));
  const asNow = (): HowMuch => (shown().isWhole ? "whole" : "first");
  createRoot(() => createRenderEffect(() => (window.document.documentElement.lang = shown().language)));
  window.addEventListener("storage", ({ key, newValue }) => {
    if (key === LANGUAGE_KEY && isLanguage(newValue)) become(newValue, asNow()).catch(() => undefined);
  });
  return {
    language: () => shown().language,
    dictionary: () => shown().dictionary,
    isWhole: () => shown().isWhole,
    async loadWhole() {
      // Another language may be chosen meanwhile.
      while (!shown().isWhole) await become(shown().language, "whole");
    },
    async choose(language) {
      await become(language, asNow());
      window.localStorage.setItem(LANGUAGE_KEY, language);
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
export function createWords(
  choice: Pick<LanguageChoice, "dictionary">,
  place: Accessor<KitchenPlace>,
): Accessor<FirstWords> {
  const units = createMemo(() => place().units);
  const timeZone = createMemo(() => place().timeZone);
  return createMemo(() => choice.dictionary()(units(), timeZone()));
}

export const WordsContext = createContext<Accessor<FirstWords>>();
export const LanguageContext = createContext<LanguageChoice>();

/** The words of the screen that is shown, which does with those of a first screen. Throws outside of one. */
export function useFirstWords(): Accessor<FirstWords> {
  const words = useContext(WordsContext);
  if (words === undefined) throw new Error("no screen gives its words here");
  return words;
}

/** All words, for what is shown only once they are here. */
export const useWords = (): Accessor<Words> => wholeWords(useFirstWords());

export function wholeWords(words: Accessor<FirstWords>): Accessor<Words> {
  return () => {
    const here = words();
    if (!isWholeWords(here)) throw new Error("shown before all of its words were here");
    return here;
  };
}

const isWholeWords = (words: FirstWords): words is Words => "refusals" in words;

/** The language of the screen that is shown, to choose another. Throws outside of one. */
export function useLanguage(): LanguageChoice {
  const choice = useContext(LanguageContext);
  if (choice === undefined) throw new Error("no screen gives its language here");
  return choice;
}
