import { For } from "solid-js";
import type { JSX } from "solid-js";
import { useLanguage } from "#shared/client/screen/language.ts";
import { isLanguage, LANGUAGES } from "#shared/words/languages.ts";

/** The language of this screen, each by its own name. */
export function LanguageButtons(): JSX.Element {
  const choice = useLanguage();
  return (
    <div class="choices languages">
      <For each={Object.keys(LANGUAGES).filter(isLanguage)}>
        {(one) => (
          <button
            type="button"
            lang={one}
            aria-pressed={choice.language() === one}
            onClick={() => void choice.choose(one)}
          >
            {LANGUAGES[one]}
          </button>
        )}
      </For>
    </div>
  );
}
