import type { Request } from "express";
import type { Settings } from "#shared/kitchen/model/settings.ts";
import type { KitchenUnits } from "#shared/units.ts";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";
import type { Language } from "#shared/words/formats.ts";
import { languageOf } from "#shared/words/languages.ts";
import type { Dictionary, Words } from "#shared/words/words.ts";

/** A sentence, made in the language of whoever reads it. */
export type Say = (words: Words) => string;

/** A line for whoever looks after the server. */
export type Report = (say: Say, cause?: unknown) => void;

const DICTIONARIES: Readonly<Record<Language, Dictionary>> = { en: english, es: spanish };
const made = new Map<string, Words>();

function wordsOf(language: Language, units: KitchenUnits, timeZone: string): Words {
  const key = `${language} ${units} ${timeZone}`;
  let words = made.get(key);
  if (words === undefined) {
    words = DICTIONARIES[language](units, timeZone);
    made.set(key, words);
  }
  return words;
}

/** A language's words for a kitchen's units and time zone. */
export const wordsIn = (
  language: Language,
  { units, timeZone }: Pick<Settings, "units" | "timeZone">,
): Words => wordsOf(language, units, timeZone);

/** The words of whoever asks, by `Accept-Language`, for the kitchen's units and time zone; English where it asks for none that there is. */
export const wordsFor = (request: Request, settings: Settings): Words =>
  wordsIn(languageAsked(request), settings);

export const languageAsked = (request: Request): Language =>
  request.acceptsLanguages("en", "es") === "es" ? "es" : "en";

/** The console's words: the language of LC_ALL, LC_MESSAGES or LANG, the first that is set; English otherwise. Metric, UTC. */
export function consoleWords(env: Readonly<Record<string, string | undefined>>): Words {
  const locale = [env["LC_ALL"], env["LC_MESSAGES"], env["LANG"]].find((one) => (one ?? "") !== "") ?? "";
  return wordsOf(languageOf([locale.replace("_", "-")]), "metric", "UTC");
}

const ENGLISH = wordsOf("en", "metric", "UTC");

/** A sentence as it is kept for whoever examines a log, whatever their language. */
export const inLog = (say: Say): string => say(ENGLISH);

export const saysTheSame = (one: Say | undefined, other: Say | undefined): boolean =>
  one === other || (one !== undefined && other !== undefined && inLog(one) === inLog(other));

/** An error with a sentence for whoever meets it. Its `message` is English, for the log. */
export class WordedError extends Error {
  override name = "WordedError";
  readonly say: Say;

  constructor(say: Say, options?: ErrorOptions) {
    super(inLog(say), options);
    this.say = say;
  }
}

/** What went wrong, as one line: ours in these words, the system's as it puts it. */
export const sayError =
  (error: unknown): Say =>
  (words) => {
    if (error instanceof WordedError) return error.say(words);
    return error instanceof Error ? error.message : String(error);
  };
