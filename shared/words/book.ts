import { compareWithBook, type Comparison, type Learned } from "#shared/drying/uncertainty/learning.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

/** The kitchen, an icing or a place beside the book: how many times as long it takes, and in words. */
export interface BookRow extends Pick<Comparison, "quantity" | "ratio" | "lowRatio" | "highRatio" | "tests"> {
  key: string;
  of: "kitchen" | "icing" | "place";
  name: string;
  words: string;
}

/** What has been found, the kitchen first, then its icings and places, the most tested first. */
export function bookRows(kitchen: Kitchen, learned: Learned): BookRow[] {
  return compareWithBook(learned)
    .flatMap((comparison): BookRow[] => {
      const { quantity, ratio, lowRatio, highRatio, tests, group } = comparison;
      const of = group.icing !== undefined ? "icing" : group.place !== undefined ? "place" : "kitchen";
      const id = group.icing ?? group.place ?? "";
      const name =
        of === "kitchen" ? "This kitchen" : (of === "icing" ? kitchen.icings : kitchen.places)[id]?.name;
      // What was removed since teaches on, and is nothing to read about.
      if (name === undefined) return [];
      const words = of === "kitchen" ? comparisonWords(comparison) : shortWords(comparison);
      return [
        { key: `${quantity}/${of}/${id}`, of, name, words, quantity, ratio, lowRatio, highRatio, tests },
      ];
    })
    .toSorted((a, b) => RANK[a.of] - RANK[b.of] || b.tests - a.tests);
}

const RANK = { kitchen: 0, icing: 1, place: 2 } as const;

/** "skins 20 % slower than the model's start (5–38 %); 14 films". */
export function comparisonWords(comparison: Comparison): string {
  const verb = comparison.quantity === "skin" ? "skins" : "dries through";
  const { pace, range } = paceWords(comparison);
  return `${verb} ${pace === undefined ? "about as" : `${pace} than`} the model's start (${range}); ${filmsWords(comparison)}`;
}

/** "20 % slower (5–38 %); 14 films": where a heading has said beside what. */
export function shortWords(comparison: Comparison): string {
  const { pace, range } = paceWords(comparison);
  return `${pace ?? "much the same"} (${range}); ${filmsWords(comparison)}`;
}

/** No pace where it is much the same. */
function paceWords({ ratio, lowRatio, highRatio }: Comparison): { pace?: string; range: string } {
  const [likely, low, high] = [percent(ratio), percent(lowRatio), percent(highRatio)];
  return Math.abs(likely) < ALIKE_PCT
    ? { range: rangeWords(low, high) }
    : { pace: wayWords(likely), range: rangeWords(low, high, likely) };
}

const filmsWords = ({ tests }: Comparison): string => `${tests} ${tests === 1 ? "film" : "films"}`;

/** "5–38 % slower", without its way where that was just said, "6 % quicker to 22 % slower". */
function rangeWords(low: number, high: number, said = 0): string {
  if (low * high < 0) return `${wayWords(low)} to ${wayWords(high)}`;
  const [near, far] = [Math.abs(low), Math.abs(high)].toSorted((a, b) => a - b);
  const way = said * (low + high) > 0 ? "" : ` ${low + high < 0 ? "quicker" : "slower"}`;
  return `${near}–${far}\u00A0%${way}`;
}

/** Under this, %, is no difference worth a word. */
const ALIKE_PCT = 3;

/** "20 % slower", "5 % quicker". */
const wayWords = (pct: number): string => `${Math.abs(pct)}\u00A0% ${pct < 0 ? "quicker" : "slower"}`;

/** How much longer it takes, %. */
const percent = (ratio: number): number => Math.round((ratio - 1) * 100);
