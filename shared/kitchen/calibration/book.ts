import { compareWithBook, type Comparison, type Learned } from "#shared/drying/uncertainty/learning.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

/** The kitchen, an icing or a place beside the book. Percentages: how much longer it takes, below nought how much less. */
export interface BookRow extends Pick<Comparison, "quantity" | "ratio" | "lowRatio" | "highRatio" | "tests"> {
  key: string;
  of: "kitchen" | "icing" | "place";
  /** Of an icing or a place. */
  name?: string | undefined;
  /** Absent where it is much the same. */
  likelyPct?: number;
  lowPct: number;
  highPct: number;
}

/** Under this, %, is no difference worth a word. */
const ALIKE_PCT = 3;
const ORDER = { kitchen: 0, icing: 1, place: 2 } as const;

/** What has been found, the kitchen first, then its icings and places, the most tested first. */
export function bookRows(kitchen: Kitchen, learned: Learned): BookRow[] {
  return compareWithBook(learned)
    .flatMap((comparison): BookRow[] => {
      const { quantity, ratio, lowRatio, highRatio, tests, group } = comparison;
      const of = group.icing !== undefined ? "icing" : group.place !== undefined ? "place" : "kitchen";
      const id = group.icing ?? group.place ?? "";
      const name =
        of === "kitchen" ? undefined : (of === "icing" ? kitchen.icings : kitchen.places)[id]?.name;
      // What was removed since teaches on, and is nothing to read about.
      if (name === undefined && of !== "kitchen") return [];
      const key = `${quantity}/${of}/${id}`;
      return [{ key, of, name, quantity, ratio, lowRatio, highRatio, tests, ...paceOf(comparison) }];
    })
    .toSorted((a, b) => ORDER[a.of] - ORDER[b.of] || b.tests - a.tests);
}

/** How much longer than by the book, and between what. */
export function paceOf({
  ratio,
  lowRatio,
  highRatio,
}: Pick<Comparison, "ratio" | "lowRatio" | "highRatio">): Pick<BookRow, "likelyPct" | "lowPct" | "highPct"> {
  const [likelyPct, lowPct, highPct] = [percent(ratio), percent(lowRatio), percent(highRatio)];
  return { lowPct, highPct, ...(Math.abs(likelyPct) >= ALIKE_PCT && { likelyPct }) };
}

const percent = (ratio: number): number => Math.round((ratio - 1) * 100);
