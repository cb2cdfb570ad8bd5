import type { Accessor, JSX } from "solid-js";
import {
  createWords,
  type KitchenPlace,
  LanguageContext,
  type LanguageChoice,
  WordsContext,
} from "#shared/client/screen/language.ts";
import type { Theme } from "#shared/client/screen/theme.ts";
import { english } from "#shared/words/en/index.ts";

/** English for a metric kitchen whose clock is Universal Time. */
export const ENGLISH = english("metric", "UTC");

/** A screen's language that stays English. */
export const ENGLISH_CHOICE: LanguageChoice = {
  language: () => "en",
  dictionary: () => english,
  isWhole: () => true,
  loadWhole: async () => undefined,
  choose: async () => undefined,
};

/** A screen's theme that stays day. */
export const DAY_THEME: Theme = { choice: () => "day", choose: () => undefined };

/** A screen shown on its own, in a kitchen's English. */
export function InEnglish(props: {
  place: Accessor<KitchenPlace>;
  choice?: LanguageChoice;
  children: JSX.Element;
}): JSX.Element {
  const choice = props.choice ?? ENGLISH_CHOICE;
  return (
    <LanguageContext.Provider value={choice}>
      <WordsContext.Provider value={createWords(choice, props.place)}>{props.children}</WordsContext.Provider>
    </LanguageContext.Provider>
  );
}
