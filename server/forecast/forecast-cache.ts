import type { Belief } from "#shared/drying/uncertainty/belief.ts";
import { SECOND_MS } from "#shared/time.ts";
import type { AirSpell } from "#shared/drying/film/film.ts";
import type { FilmTimes } from "#shared/drying/uncertainty/forecast.ts";
import { type FilmQuestion, type Solve, solveAfresh } from "#shared/kitchen/forecast/films.ts";

/**
 * Answers of the drying model by film, kept while asking again would change them by less than three hundredths, and shared among
 * films of a kind on the same terms. While nothing has changed that a question is made of, it is not even put.
 */
export interface ForecastCache {
  solve: Solve;
  /** Forgets answers not asked for since the last call but one. */
  sweep: () => void;
}

interface Answer {
  question: FilmQuestion;
  forecast: FilmTimes;
}

interface Kept {
  answer: Answer;
  /** What its question was made of when it was last put. */
  basis: readonly unknown[];
  usedIn: number;
}

/** So many of a kind are looked at: the layers of a tray may be of one kind, and of as many ages. */
const NEWEST = 8;

/** Makes an empty store of answers. `basisNow`: all that questions are made of; a basis whose parts are the same asks the same. */
export function makeForecastCache(basisNow: () => readonly unknown[]): ForecastCache {
  const kept = new Map<string, Kept>();
  /** The newest answers of films of a kind, the latest first: the next tray of a batch had nearly the same air. */
  const newest = new Map<string, Answer[]>();
  let round = 0;

  function answerTo(key: string, ask: () => FilmQuestion): Answer {
    const own = kept.get(key);
    const basis = basisNow();
    if (own !== undefined && basis.every((part, k) => part === own.basis[k])) {
      own.usedIn = round;
      return own.answer;
    }
    const question = ask();
    const answer = own !== undefined && isAlike(own.answer, question) ? own.answer : sharedOrAsked(question);
    kept.set(key, { answer, basis, usedIn: round });
    return answer;
  }

  function sharedOrAsked(question: FilmQuestion): Answer {
    const kind = kindOf(question);
    const answers = newest.get(kind) ?? [];
    const shared = answers.find((answer) => isAlike(answer, question));
    if (shared !== undefined) return shared;
    const answer = { question, forecast: solveAfresh(kind, () => question) };
    newest.set(kind, [answer, ...answers].slice(0, NEWEST));
    return answer;
  }

  return {
    solve: (key, ask) => answerTo(key, ask).forecast,
    sweep: () => {
      round += 1;
      newest.clear();
      for (const [key, { usedIn }] of kept) if (usedIn < round - 2) kept.delete(key);
    },
  };
}

const kindOf = ({ spec, belief }: FilmQuestion): string =>
  `${spec.thicknessMm} ${spec.waterPct} ${belief.skin.meanLn} ${belief.dryThrough.meanLn}`;

/** Largest changes of what is asked that leave an answer standing. */
const BELIEF_LN = 0.01;
const SPREAD_SHARE = 0.02;
const DOUBT_SHARE = 0.08;
const TEMP_C = 0.2;
/** A film laid so much warmer or cooler skins nearly as soon. */
const LAID_C = 1;
const SPEED_LN = 0.02;
/** Of the distance to the humidity at which icing gives up no water: the pull to dry goes by that. */
const RH_SHARE = 0.01;
const DAMPEST_PCT = 86;
/** The moment from which the air is an outlook, as a share of the time forecast. */
const OUTLOOK_SHARE = 0.05;
/** What never dries is compared over this long, s. */
const LONG_S = 2 * 86_400;

function isAlike({ question: before, forecast }: Answer, now: FilmQuestion): boolean {
  const skinS = "never" in forecast.skin ? LONG_S : forecast.skin.latestMs / SECOND_MS;
  const dryS = "never" in forecast.dryThrough ? LONG_S : forecast.dryThrough.latestMs / SECOND_MS;
  return (
    before.spec.thicknessMm === now.spec.thicknessMm &&
    before.spec.waterPct === now.spec.waterPct &&
    before.spec.densityKgM3 === now.spec.densityKgM3 &&
    before.spec.laidAtC === now.spec.laidAtC &&
    before.waterSdPct === now.waterSdPct &&
    Math.abs((before.spec.roomC ?? 0) - (now.spec.roomC ?? 0)) <= LAID_C &&
    areBeliefsAlike(before.belief, now.belief) &&
    isDoubtAlike(before, now, skinS) &&
    isDoubtAlike(before, now, dryS) &&
    isAirAlike(before.spells, now.spells, skinS) &&
    isAirAlike(before.spells, now.spells, dryS)
  );
}

/** Whether two beliefs give the same forecast to about a hundredth. */
export const areBeliefsAlike = (a: Belief, b: Belief): boolean =>
  (["skin", "dryThrough"] as const).every(
    (quantity) =>
      Math.abs(a[quantity].meanLn - b[quantity].meanLn) <= BELIEF_LN &&
      Math.abs(a[quantity].sdLn - b[quantity].sdLn) <= SPREAD_SHARE * a[quantity].sdLn,
  );

function isDoubtAlike(before: FilmQuestion, now: FilmQuestion, untilS: number): boolean {
  if (before.doubtFromS >= untilS && now.doubtFromS >= untilS) return true;
  const isNear = (a: number, b: number): boolean => Math.abs(a - b) <= DOUBT_SHARE * a;
  return (
    Math.abs(before.doubtFromS - now.doubtFromS) <= OUTLOOK_SHARE * untilS &&
    isNear(before.doubt.tempSdC, now.doubt.tempSdC) &&
    isNear(before.doubt.rhSdPct, now.doubt.rhSdPct) &&
    isNear(before.doubt.speedSdLn, now.doubt.speedSdLn)
  );
}

/** Whether two courses of the air differ, on the mean over a time, by little. */
function isAirAlike(a: readonly AirSpell[], b: readonly AirSpell[], untilS: number): boolean {
  const off = { tempC: 0, rhPct: 0, speedLn: 0, rhPctMean: 0 };
  let [i, j] = [0, 0];
  for (let fromS = 0; fromS < untilS;) {
    const [one, two] = [a[i]?.air, b[j]?.air];
    if (one === undefined || two === undefined || one.hWm2K !== two.hWm2K) return false;
    const nextS = Math.min(a[i + 1]?.fromS ?? Infinity, b[j + 1]?.fromS ?? Infinity, untilS);
    const share = Math.max(0, nextS - fromS) / untilS;
    off.tempC += share * Math.abs(one.tempC - two.tempC);
    off.rhPct += share * Math.abs(one.rhPct - two.rhPct);
    off.rhPctMean += share * one.rhPct;
    if (one.speedMs !== two.speedMs)
      off.speedLn += share * Math.abs(Math.log((one.speedMs + 0.01) / (two.speedMs + 0.01)));
    fromS = Math.max(fromS, nextS);
    if ((a[i + 1]?.fromS ?? Infinity) <= fromS) i += 1;
    if ((b[j + 1]?.fromS ?? Infinity) <= fromS) j += 1;
  }
  const rhPct = RH_SHARE * Math.max(0, DAMPEST_PCT - off.rhPctMean);
  return off.tempC <= TEMP_C && off.rhPct <= rhPct && off.speedLn <= SPEED_LN;
}
