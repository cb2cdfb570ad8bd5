import type { JSX } from "solid-js";
import { Choices } from "#display/view/choices.tsx";
import { useLanguage } from "#shared/client/screen/language.ts";
import { isLanguage, LANGUAGES } from "#shared/words/languages.ts";

/** The language of this screen, each by its own name. */
export function LanguageButtons(): JSX.Element {
  const choice = useLanguage();
  const choices = Object.keys(LANGUAGES)
    .filter(isLanguage)
    .map((one) => ({
      words: LANGUAGES[one],
      lang: one,
      isChosen: () => choice.language() === one,
      does: () => void choice.choose(one),
    }));
  return <Choices of={choices} />;
}
