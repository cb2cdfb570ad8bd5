import { useLanguage, useFirstWords } from "#shared/client/screen/language.ts";
import { isLanguage, LANGUAGES } from "#shared/words/languages.ts";
import { Choice } from "./plain-field.tsx";

const OPTIONS = Object.entries(LANGUAGES).flatMap(([value, name]) =>
  isLanguage(value) ? { value, name } : [],
);

/** The language of this phone, each by its own name. */
export function LanguageField() {
  const words = useFirstWords();
  const choice = useLanguage();
  return (
    <Choice
      label={words().app.language}
      value={choice.language()}
      options={OPTIONS}
      onChange={(next) => void choice.choose(next)}
    />
  );
}
