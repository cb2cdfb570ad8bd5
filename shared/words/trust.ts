import { formatSpan } from "#shared/units.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Found, Score } from "#shared/kitchen/calibration/trust.ts";
import { dayTime, sentence } from "./wording.ts";

/** What a quantity is called where findings are told of. */
const QUANTITY_WORDS = { skin: "skin", dryThrough: "dry through" } as const;

/** How the last films came out, in two sentences; "8 in 10" is what the bands promise. */
export function scoreWords(score: Score): { head: string; body: string } {
  const { films, sooner, later, verdict } = score;
  if (films === 0)
    return {
      head: "No film was touched yet with a band to hold it against.",
      body: "Each touch test on a film whose skin or dryness is still to come counts.",
    };
  const inside = Math.round(score.inside);
  const count = `Of the ${films === 1 ? "one film" : `last ${films} films`} touched, about ${inside} ${inside === 1 ? "counts" : "count"} as inside the band shown`;
  const expected = `${Math.round(score.expected)} expected, 8 in 10`;
  const outside = sooner + later;
  const ways = [...(sooner > 0 ? [`${sooner} sooner`] : []), ...(later > 0 ? [`${later} later`] : [])].join(
    ", ",
  );
  const surely =
    outside === 0
      ? "No finding rules its band out."
      : `${outside} ${outside === 1 ? "finding lies" : "findings lie"} wholly outside: ${ways}.`;
  return {
    head: `${count} (${expected}): ${VERDICTS[verdict]}.`,
    body: `${surely} A touch says only “by now” or “not yet”, so each film counts by the part of that which lies inside its band, and the rest is open.`,
  };
}

const VERDICTS: Readonly<Record<Score["verdict"], string>> = {
  "as expected": "as it should be",
  "too few": "too few, go by touch",
  "more than expected": "the bands are wider than they need be",
  "too early to tell": "too few films to judge by",
};

/** "by 24 min", "not yet at 3 h", "after 2 h, by 2 h 30": when hands found it, from the clock's start. */
export function foundWords({ notYetMin, byMin }: Pick<Found, "notYetMin" | "byMin">): string {
  const by = byMin === undefined ? undefined : `by ${formatSpan(byMin)}`;
  if (notYetMin === undefined) return by ?? "";
  return by === undefined ? `not yet at ${formatSpan(notYetMin)}` : `after ${formatSpan(notYetMin)}, ${by}`;
}

/** "Tray 18, layer 2": which film. */
export const filmName = ({ trayNumber, layer }: Found): string => `Tray ${trayNumber}, layer ${layer + 1}`;

/** "storm · Rack A · Thu 14:05". */
export function filmPlace(kitchen: Kitchen, { icing, place, atMs }: Found): string {
  return [
    kitchen.icings[icing]?.name ?? "an icing since removed",
    kitchen.places[place]?.name ?? "a place since removed",
    dayTime(atMs, kitchen.settings.timeZone),
  ].join(" · ");
}

/** "41 min to 3 h 05": a band that is history, as exactly as what was found. */
export const shownWords = ({ earliestMin, latestMin }: Found): string =>
  `${formatSpan(earliestMin)} to ${formatSpan(latestMin)}`;

/** "Skin shown 41 min to 3 h 05, found not yet at 3 h 40". */
export const foundSentence = (found: Found): string =>
  `${sentence(QUANTITY_WORDS[found.quantity])} shown ${shownWords(found)}, found ${foundWords(found)}`;

/** "at least 40 min later than the latest": how far outside; empty for what is not. */
export function surpriseWords({ surprise, contradicted }: Found): string {
  if (surprise === undefined) return "";
  const edge = surprise.is === "later" ? "latest" : "earliest";
  const doubt = contradicted ? "; its findings disagreed, the later one is taken" : "";
  return `at least ${formatSpan(surprise.byMin)} ${surprise.is} than the ${edge}${doubt}`;
}
