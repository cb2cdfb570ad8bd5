import type { Request } from "express";
import type { Settings } from "#shared/kitchen/model/settings.ts";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";
import type { Words } from "#shared/words/words.ts";

const DICTIONARIES = { en: english, es: spanish } as const;
const made = new Map<string, Words>();

/** The words of whoever asks, by `Accept-Language`; English where they ask for none that there is. */
export function wordsFor(request: Request, { units, timeZone }: Settings): Words {
  const language = request.acceptsLanguages("en", "es") === "es" ? "es" : "en";
  const key = `${language} ${units} ${timeZone}`;
  let words = made.get(key);
  if (words === undefined) {
    words = DICTIONARIES[language](units, timeZone);
    made.set(key, words);
  }
  return words;
}

/** For whoever looks after the server. */
export const CONSOLE_WORDS: Words = english("metric", "UTC");
