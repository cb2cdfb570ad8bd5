import { expect, test } from "vitest";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";

/** The same in both: works by their own names, units, and words that Spanish shares. */
const SHARED =
  /^\.cautions\.sources\.(prudent|cfr-cords|food-code-.*)$|\.unitSystems\.metric\.hint$|\.roles\.sensor$|\.icing\.columns\.base$/;

/** Every entry of a dictionary by its path: a text as it is, a sentence with gaps as its code. */
function entriesOf(value: unknown, path = ""): [path: string, text: string][] {
  if (typeof value === "string") return [[path, value]];
  if (typeof value === "function") return [[path, String(value).replaceAll(/\s+/g, " ")]];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => entriesOf(part, `${path}.${key}`));
}

test("Spanish has every entry that English has, and no other", () => {
  for (const units of ["metric", "us"] as const) {
    const paths = (dictionary: object): string[] => entriesOf(dictionary).map(([path]) => path);
    expect(paths(spanish(units, "UTC"))).toEqual(paths(english(units, "UTC")));
  }
});

test("no Spanish entry is left in English", () => {
  const { format: _, ...inEnglish } = english("metric", "UTC");
  const { format: _es, ...inSpanish } = spanish("metric", "UTC");
  const texts = new Map(entriesOf(inEnglish));
  const same = entriesOf(inSpanish).filter(
    ([path, text]) => texts.get(path) === text && !SHARED.test(path) && /\p{L}{2}/u.test(lettersOf(text)),
  );
  expect(same).toEqual([]);
});

/** The words in a text; of a sentence with gaps those between them. */
const lettersOf = (text: string): string =>
  text.includes("=>")
    ? [...text.matchAll(/["`]([^"`]*)["`]/g)]
        .map(([, words = ""]) => words.replaceAll(/\$\{[^}]*\}/g, " "))
        .join(" ")
    : text;
