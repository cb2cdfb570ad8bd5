import type { EvidenceFact } from "#shared/kitchen/model/event.ts";
import { tailBeyond } from "#shared/kitchen/forecast/clues.ts";

type Quantity = EvidenceFact["quantity"];

/** One film's finding beside the band that was shown when it was touched, minutes from its drying clock's start. */
export interface Found extends Pick<
  EvidenceFact,
  "quantity" | "icing" | "place" | "atMs" | "trayNumber" | "layer"
> {
  key: string;
  earliestMin: number;
  likelyMin: number;
  latestMin: number;
  /** Not yet then; absent when nobody found it so. */
  notYetMin?: number;
  /** Reached by then; absent when nobody found it so. */
  byMin?: number;
  /** Its findings disagreed, and the later one was believed. */
  contradicted: boolean;
  /** How much of what the finding leaves open lies inside the band, 0 to 1. */
  inside: number;
  /** The finding lies outside the band altogether, by at least so much. */
  surprise?: { is: "sooner" | "later"; byMin: number };
}

/** How the forecasts of the last films touched came out. */
export interface Score {
  films: number;
  /** Films inside the band, each counted by its part. */
  inside: number;
  expected: number;
  sooner: number;
  later: number;
  /** Whether that is what right bands give, too few, or more than they need to. */
  verdict: "as expected" | "too few" | "more than expected" | "too early to tell";
}

/** What the kitchen's own findings say of its forecasts. */
export interface Trust {
  skin: Track;
  dryThrough: Track;
  /** The last findings outside their bands, newest first. */
  surprises: readonly Found[];
}

/** One quantity: its score, and the newest films to draw, the one forecast soonest first. */
export interface Track {
  score: Score;
  drawn: readonly Found[];
}

/** Bands run from the 10th to the 90th percentile. */
const EXPECTED = 0.8;
const SCORED_MOST = 40;
const DRAWN_MOST = 20;
const SURPRISES_MOST = 10;
/** A finding that the forecast held this sure beforehand tests nothing. */
const SURE = 0.99;
/** Fewer films than this say nothing of the bands. */
const TELLING_LEAST = 10;

/** Judges every finding for which a band was shown. `facts` as `evidenceOf` gives them. */
export function trustOf(facts: readonly EvidenceFact[]): Trust {
  const found = facts.flatMap(foundOf).toSorted((a, b) => b.atMs - a.atMs || (a.key < b.key ? -1 : 1));
  const track = (quantity: Quantity): Track => {
    const own = found.filter((one) => one.quantity === quantity);
    return {
      score: scoreOf(own.slice(0, SCORED_MOST)),
      drawn: own.slice(0, DRAWN_MOST).toSorted((a, b) => a.likelyMin - b.likelyMin || a.atMs - b.atMs),
    };
  };
  return {
    skin: track("skin"),
    dryThrough: track("dryThrough"),
    surprises: found.filter(({ surprise }) => surprise !== undefined).slice(0, SURPRISES_MOST),
  };
}

/** Nothing for a film whose time was no forecast any more, or whose finding the forecast took for granted. */
function foundOf(fact: EvidenceFact): Found[] {
  const { quantity, icing, place, atMs, trayNumber, layer, shown, foundMin } = fact;
  if (shown === undefined || foundMin === undefined) return [];
  if (!(shown.earliestMin > 0 && shown.latestMin > shown.earliestMin)) return [];
  const { earliestMin, likelyMin, latestMin } = shown;
  const spread = { earliestMs: earliestMin, likelyMs: likelyMin, latestMs: latestMin };
  const later = (minutes: number | null, open: number): number =>
    minutes === null ? open : minutes <= 0 ? 1 : tailBeyond(spread, minutes);
  const before = later(foundMin.low, 1);
  const after = later(foundMin.high, 0);
  const surprise = surpriseOf(shown, foundMin);
  if (surprise === undefined && before - after > SURE) return [];
  const insideBand =
    later(Math.max(foundMin.low ?? 0, earliestMin), 1) -
    later(Math.min(foundMin.high ?? latestMin, latestMin), 0);
  return [
    {
      key: `${trayNumber}/${layer}/${quantity}/${atMs}`,
      quantity,
      icing,
      place,
      atMs,
      trayNumber,
      layer,
      earliestMin,
      likelyMin,
      latestMin,
      ...(foundMin.low === null ? {} : { notYetMin: foundMin.low }),
      ...(foundMin.high === null ? {} : { byMin: foundMin.high }),
      contradicted: fact.contradicted === true,
      inside: surprise === undefined ? Math.min(1, Math.max(0, insideBand) / (before - after)) : 0,
      ...(surprise === undefined ? {} : { surprise }),
    },
  ];
}

/** Reached before the earliest, or not yet after the latest. */
export function surpriseOf(
  { earliestMin, latestMin }: NonNullable<EvidenceFact["shown"]>,
  { low, high }: NonNullable<EvidenceFact["foundMin"]>,
): Found["surprise"] {
  if (high !== null && high < earliestMin) return { is: "sooner", byMin: earliestMin - high };
  if (low !== null && low > latestMin) return { is: "later", byMin: low - latestMin };
  return undefined;
}

/**
 * A finding says "by now" or "not yet" and leaves the rest open: each film counts by the part of that which lies inside its
 * band, under the forecast's own distribution. If the forecasts are right this comes to 80 % on average, whenever hands
 * choose to touch (the mean of a conditional probability is the probability).
 */
function scoreOf(found: readonly Found[]): Score {
  const films = found.length;
  const inside = found.reduce((sum, one) => sum + one.inside, 0);
  const expected = EXPECTED * films;
  const margin = 2 * Math.sqrt(films * EXPECTED * (1 - EXPECTED));
  const count = (is: "sooner" | "later"): number =>
    found.filter(({ surprise }) => surprise?.is === is).length;
  return {
    films,
    inside,
    expected,
    sooner: count("sooner"),
    later: count("later"),
    verdict:
      films < TELLING_LEAST
        ? "too early to tell"
        : inside < expected - margin
          ? "too few"
          : inside > expected + margin
            ? "more than expected"
            : "as expected",
  };
}
