import { LEARNING_PRIOR } from "#shared/drying/uncertainty/belief.ts";
import type { Evidence } from "#shared/drying/uncertainty/learning.ts";

/** Numbers from a seed: uniform on [0, 1), standard normal, exponential of mean 1. */
export interface Draws {
  uniform: () => number;
  normal: () => number;
  exponential: () => number;
}

/** Mulberry32 (Tommy Ettinger, public domain; from memory), and Box–Muller on top. */
export function drawsFrom(seed: number): Draws {
  let state = seed;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const exponential = (): number => -Math.log(1 - uniform());
  return {
    uniform,
    exponential,
    normal: () => Math.sqrt(2 * exponential()) * Math.cos(2 * Math.PI * uniform()),
  };
}

/** How a kitchen touches and acts; shares of films, times as multiples of the book's. */
export interface Habits {
  films: number;
  /** Films somebody touches, first at half to 1.3 times the book's time, again a little later while wet. */
  testedShare: number;
  /** "Still wet" that is tapped in, not just thought. */
  wetRecordedShare: number;
  /** Films not found set by a test whose set film is then worked on: a neighbour laid, packed. */
  actShare: number;
  /** Mean wait of a set film for that act. */
  waitMean: number;
  /** Taps that belong to another tray. */
  freakShare: number;
}

export interface SimulatedKitchen {
  evidence: Evidence[];
  /** A film not seen yet: its icing, its place, ln of its true factor, and of the mean of such films. */
  next: { icing: string; place: string; ln: number; meanLn: number };
}

const ICINGS = ["white", "navy", "red", "black"];
const PLACES = ["rack", "fan rack", "cabinet"];

/** A kitchen whose true factors are drawn as LEARNING_PRIOR says, and what its decorators' habits let be known of them. */
export function simulateKitchen(
  draws: Draws,
  quantity: Evidence["quantity"],
  habits: Habits,
): SimulatedKitchen {
  const { kitchenSd, icingSd, oddShare, oddSd, placeSd, daySd } = LEARNING_PRIOR;
  // Each film out of a bowl of its own, on a day of its own.
  const filmSd = Math.hypot(LEARNING_PRIOR.filmSd, LEARNING_PRIOR.bowlSd, daySd);
  const kitchenLn = kitchenSd * draws.normal();
  const icings = ICINGS.map((icing) => ({
    icing,
    ln: (draws.uniform() < oddShare ? oddSd : icingSd) * draws.normal(),
  }));
  const places = PLACES.map((place) => ({ place, ln: placeSd * draws.normal() }));
  const layFilm = (): SimulatedKitchen["next"] => {
    // Squared, so that some icings and places are common and others rare.
    const icing = icings[Math.floor(draws.uniform() ** 2 * icings.length)]!;
    const place = places[Math.floor(draws.uniform() ** 2 * places.length)]!;
    const meanLn = kitchenLn + icing.ln + place.ln;
    return { icing: icing.icing, place: place.place, ln: meanLn + filmSd * draws.normal(), meanLn };
  };
  const evidence: Evidence[] = [];
  for (let laid = 0; laid < habits.films; laid += 1) {
    const { icing, place, ln } = layFilm();
    const isFreak = draws.uniform() < habits.freakShare;
    const seen = watch(draws, isFreak ? LEARNING_PRIOR.freakSd * draws.normal() : ln, habits);
    if (seen !== undefined) evidence.push({ quantity, icing, place, ...seen });
  }
  return { evidence, next: layFilm() };
}

type Seen = Pick<Evidence, "lnLow" | "lnHigh" | "byAct">;

/** What is tapped in about one film that sets at exp(`ln`) times the book's time. */
function watch(draws: Draws, ln: number, habits: Habits): Seen | undefined {
  const setAt = Math.exp(ln);
  let wetAt = 0;
  if (draws.uniform() < habits.testedShare) {
    let at = 0.5 + 0.8 * draws.uniform();
    do {
      if (setAt <= at) return { lnLow: Math.log(wetAt), lnHigh: Math.log(at) };
      if (draws.uniform() < habits.wetRecordedShare) wetAt = at;
      at += 0.1 + 0.3 * draws.uniform();
    } while (draws.uniform() < 0.7);
  }
  // Who lays or packs on the board's own word, a film that nobody touched, teaches nothing.
  if (wetAt > 0 && draws.uniform() < habits.actShare) {
    const actAt = setAt + habits.waitMean * draws.exponential();
    return { lnLow: Math.log(wetAt), lnHigh: Math.log(actAt), byAct: true };
  }
  return wetAt > 0 ? { lnLow: Math.log(wetAt), lnHigh: Infinity } : undefined;
}
