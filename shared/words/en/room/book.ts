import type { BookLine, BookRow } from "#shared/kitchen/calibration/book.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { terms } from "#shared/words/en/terms.ts";

const FILMS: Plural = { one: "film", other: "films" };

/** How the kitchen, its icings and its places dry beside the book. */
export const book = (format: Formats) => {
  const { toolKinds } = terms(format);
  const times = (count: number): string => format.count(count, { one: "time", other: "times" });
  /** "20 % slower", "5 % quicker". */
  const pace = (pct: number): string => `${format.percent(Math.abs(pct))} ${pct < 0 ? "quicker" : "slower"}`;
  /** "5–38 % slower", without its way where that was just said, "6 % quicker to 22 % slower". */
  function range({ lowPct, highPct, likelyPct = 0 }: BookRow): string {
    if (lowPct * highPct < 0) return `${pace(lowPct)} to ${pace(highPct)}`;
    const [near, far] = [Math.abs(lowPct), Math.abs(highPct)].toSorted((a, b) => a - b);
    const way = likelyPct * (lowPct + highPct) > 0 ? "" : lowPct + highPct < 0 ? " quicker" : " slower";
    return `${near}–${format.percent(far ?? 0)}${way}`;
  }
  return {
    name: ({ of, name, heat }: BookRow): string => {
      if (heat !== undefined) return format.sentence(toolKinds[heat]);
      return of === "kitchen" ? "This kitchen" : format.sentence(format.name(name ?? ""));
    },
    /** "Floods here dry 5 % slower than the book; the board was right 34 times in 40." */
    line: ({ quantity, pace: known, right, films }: BookLine): string => {
      if (known === undefined) return "How floods dry here is not known yet: each touch test teaches.";
      const verb = quantity === "skin" ? "skin" : "dry through";
      const beside =
        known.likelyPct === undefined ? "about as the book says" : `${pace(known.likelyPct)} than the book`;
      const count =
        films === 0
          ? "no forecast was checked by touch yet"
          : `the board was right ${times(right)} in ${format.number(films)}`;
      return `Floods here ${verb} ${beside}; ${count}.`;
    },
    /** "skins 20 % slower than the book (5–38 %); 14 films"; of an icing or a place, a heading says beside what. */
    row: (row: BookRow): string => {
      const { of, quantity, likelyPct, tests } = row;
      const sure = `(${range(row)}); ${format.count(tests, FILMS)}`;
      if (of !== "kitchen") return `${likelyPct === undefined ? "much the same" : pace(likelyPct)} ${sure}`;
      const verb = quantity === "skin" ? "skins" : "dries through";
      const beside = likelyPct === undefined ? "about the same as" : `${pace(likelyPct)} than`;
      return `${verb} ${beside} the book ${sure}`;
    },
  };
};
