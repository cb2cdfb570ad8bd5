import { compareWithBook, type Comparison, type Learned } from "#shared/drying/uncertainty/learning.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { ToolKind } from "#shared/kitchen/model/vocabulary.ts";
import type { Score } from "./trust.ts";

/** The kitchen, an icing or a place beside the book. Percentages: how much longer it takes, below nought how much less. */
export interface BookRow extends Pick<Comparison, "quantity" | "ratio" | "lowRatio" | "highRatio" | "tests"> {
  key: string;
  of: "kitchen" | "icing" | "place" | "heat";
  /** Of an icing or a place. */
  name?: string | undefined;
  /** Of a heat. */
  heat?: ToolKind;
  /** Absent where it is much the same. */
  likelyPct?: number;
  lowPct: number;
  highPct: number;
}

/** Under this, %, is no difference worth a word. */
const ALIKE_PCT = 3;
const ORDER = { kitchen: 0, icing: 1, place: 2, heat: 3 } as const;

/** What has been found, the kitchen first, then its icings, places and heats, the most tested first. */
export function bookRows(kitchen: Kitchen, learned: Learned): BookRow[] {
  return compareWithBook(learned)
    .flatMap((comparison): BookRow[] => {
      const { quantity, ratio, lowRatio, highRatio, tests, group } = comparison;
      const heat = ToolKind.options.find((kind) => kind === group.heat);
      const [of, id] = ofGroup(group);
      const name =
        of === "icing" ? kitchen.icings[id]?.name : of === "place" ? kitchen.places[id]?.name : undefined;
      // What was removed since teaches on, and is nothing to read about.
      if (name === undefined && (of === "icing" || of === "place")) return [];
      const key = `${quantity}/${of}/${id}`;
      const row = { key, of, name, quantity, ratio, lowRatio, highRatio, tests, ...paceOf(comparison) };
      return [heat === undefined ? row : { ...row, heat }];
    })
    .toSorted((a, b) => ORDER[a.of] - ORDER[b.of] || b.tests - a.tests);
}

function ofGroup({ icing, place, heat }: Comparison["group"]): [of: BookRow["of"], id: string] {
  if (icing !== undefined) return ["icing", icing];
  if (place !== undefined) return ["place", place];
  return heat === undefined ? ["kitchen", ""] : ["heat", heat];
}

/** First of all, in one line: how this kitchen's films dry beside the book, and how often the board was right of late. */
export interface BookLine {
  quantity: BookRow["quantity"];
  /** Absent where nothing is known yet, and in it where it is much the same. */
  pace?: { likelyPct?: number };
  right: number;
  films: number;
}

/** `rows` as `bookRows` gives them. */
export function bookLine(
  quantity: BookRow["quantity"],
  rows: readonly BookRow[],
  { films, inside }: Pick<Score, "films" | "inside">,
): BookLine {
  const kitchen = rows.find((row) => row.of === "kitchen" && row.quantity === quantity);
  const { likelyPct } = kitchen ?? {};
  return {
    quantity,
    ...(kitchen !== undefined && { pace: likelyPct === undefined ? {} : { likelyPct } }),
    right: Math.round(inside),
    films,
  };
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
