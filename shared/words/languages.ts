import type { Language } from "./formats.ts";

/** The languages, each by its own name. */
export const LANGUAGES: Readonly<Record<Language, string>> = { en: "English", es: "Español" };

export const isLanguage = (text: unknown): text is Language => typeof text === "string" && text in LANGUAGES;

/** The first language a browser asks for that there is, by its BCP 47 tags in order; else English. */
export const languageOf = (tags: readonly string[]): Language =>
  tags.map((tag) => tag.toLowerCase().split("-")[0]).find(isLanguage) ?? "en";
