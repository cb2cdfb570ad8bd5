import type { Found, Score } from "#shared/kitchen/calibration/trust.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { terms } from "#shared/words/en/terms.ts";

const FILMS: Plural = { one: "film", other: "films" };
const EDGES = { sooner: "earliest", later: "latest" } as const;

/** How this kitchen dries beside the model, and how well the forecasts did. */
export const trust = (format: Formats) => {
  const { number, plural, span, sentence, name } = format;
  const { trays } = terms(format);
  const quantities: Record<Found["quantity"], string> = { skin: "Skin", dryThrough: "Dry through" };
  /** "41 min to 3 h 05": a band that is history, as exactly as what was found. */
  const shown = ({ earliestMin, latestMin }: Found): string => `${span(earliestMin)} to ${span(latestMin)}`;
  /** "by 24 min", "not yet at 3 h", "after 2 h, by 2 h 30": when it was found, from the clock's start. */
  function foundAt({ notYetMin, byMin }: Pick<Found, "notYetMin" | "byMin">): string {
    const by = byMin === undefined ? undefined : `by ${span(byMin)}`;
    if (notYetMin === undefined) return by ?? "";
    return by === undefined ? `not yet at ${span(notYetMin)}` : `after ${span(notYetMin)}, ${by}`;
  }
  /** "at least 40 min later than the latest": how far outside. */
  const surprise = ({ is, byMin }: NonNullable<Found["surprise"]>, contradicted: boolean): string =>
    `at least ${span(byMin)} ${is} than the ${EDGES[is]}${contradicted ? "; its findings disagreed, the later one counts" : ""}`;
  function verdict(verdict: Score["verdict"]): string {
    switch (verdict) {
      case "as expected":
        return "as it should be";
      case "too few":
        return "too few, go by touch";
      case "more than expected":
        return "the bands are wider than they need to be";
      case "too early to tell":
        return "too few films to judge by";
      default:
        return unreachable(verdict);
    }
  }
  return {
    title: "How this kitchen dries",
    whichTime: "Which time",
    quantities,
    lists: {
      kitchen: "Beside the book",
      icing: "By icing, beside the book",
      place: "By place, beside the book",
      heat: "Under heat, beside the book",
    },
    howWeCount: "How we count",
    nothingKnown: "Nothing is known yet: each touch test teaches.",
    working: "Working it out…",
    scale: { half: "half as long", same: "the book", twice: "twice as long" },
    explained:
      "The book is the drying sums as they were before this kitchen's findings. In brackets, where its own pace lies with 8 in 10 chances. Every forecast here already goes by it.",
    surprises: "The last surprises",
    noSurprise: "No finding lay outside the band shown.",
    /** How the last films came out, in two sentences; "8 in 10" is what the bands promise. */
    score: ({
      films,
      inside,
      expected,
      sooner,
      later,
      verdict: is,
    }: Score): { head: string; body: string } => {
      if (films === 0)
        return {
          head: "No film was touched yet with a band to compare it with.",
          body: "Each touch test on a film whose skin or dryness is still to come counts.",
        };
      const whole = Math.round(inside);
      const which = films === 1 ? "the one film" : `the last ${number(films)} films`;
      const counts = plural(whole, { one: "counts", other: "count" });
      const ways = [
        ...(sooner > 0 ? [`${number(sooner)} sooner`] : []),
        ...(later > 0 ? [`${number(later)} later`] : []),
      ];
      const outside =
        sooner + later === 0
          ? "No finding rules its band out."
          : `${format.count(sooner + later, { one: "finding lies", other: "findings lie" })} wholly outside: ${ways.join(", ")}.`;
      return {
        head: `Of ${which} touched, about ${number(whole)} ${counts} as inside the band shown (${number(expected)} expected, 8 in 10): ${verdict(is)}.`,
        body: `${outside} A touch says only “by now” or “not yet”, so each film counts by the part of that which lies inside its band, and the rest is open.`,
      };
    },
    shown,
    foundAt,
    surprise,
    /** "Tray 18, layer 2": which film. */
    film: ({ trayNumber, layer }: Found) => sentence(`${trays([trayNumber])}, layer ${layer + 1}`),
    /** "storm · Rack A · Thu 14:05". */
    where: (icing: string | undefined, place: string | undefined, atMs: number) =>
      [
        icing === undefined ? "an icing since removed" : name(icing),
        place === undefined ? "a place since removed" : name(place),
        format.dayTime(atMs),
      ].join(" · "),
    /** "Skin shown 41 min to 3 h 05, found not yet at 3 h 40". */
    found: (found: Found) => `${quantities[found.quantity]} shown ${shown(found)}, found ${foundAt(found)}`,
    plot: {
      title: (films: number) =>
        `Forecast against found: the last ${format.count(films, FILMS)}, the shortest forecast first`,
      label: (films: number, outside: number) =>
        `${format.count(films, FILMS)}, ${number(outside)} of them found outside the band shown. The table below says the same.`,
      tap: "Tap a column to see which film it is.",
      asTable: "The same as a table",
      columns: { film: "Film", shown: "Shown", found: "Found" },
      outside: { sooner: "sooner, outside the band", later: "later, outside the band" },
      legend: {
        band: "band shown, earliest to latest; the line: likeliest",
        between: "found between a “not yet” and a “done”",
        done: "found done: then or sooner",
        notYet: "found not yet done: later",
        outside: "outside the band: a surprise",
      },
    },
  };
};
