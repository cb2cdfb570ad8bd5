import type { JointNormal, Message } from "./joint-normal.ts";

/** ln(factor) of one film, somewhere between two bounds; ±Infinity where open. */
export interface Observed {
  icing: string;
  place: string;
  /** The icing is said to dry slowly. */
  isSlow?: boolean;
  /** Films of one bowl share an effect; without, the bowl is its own. */
  bowl?: string;
  /** Set by this heat: it tells of that heat and of the icing, not of the kitchen's air or the place. */
  heat?: string;
  /** A film still forecast by name: what it said itself is kept, so that it can be taken out again. */
  film?: string;
  /** ln of the bowl's seconds test over the usual. */
  secondsLn?: number;
  /** How much it still counts, 0–1: what was found long ago says less of today. 1 when left out. */
  weight?: number;
  lnLow: number;
  lnHigh: number;
  /** The upper bound is an act that waits for the film, not a test at any odd time. */
  byAct?: boolean;
}

/** An icing or a place, and how many observations are of it. */
export interface Group {
  name: string;
  tests: number;
}

/** What is known of the factor's parts: joint normals over [kitchen, seconds' lean, ...icings, ...places, ...heats], and of each bowl. */
export interface FactorPosterior extends JointNormal {
  icings: Group[];
  places: Group[];
  heats: Group[];
  bowls: BowlPosterior[];
  /** What films still forecast said themselves. */
  films: FilmMessage[];
  /** From film to film out of one bowl, and from bowl to bowl, as learned. */
  filmSd: number;
  bowlSd: number;
}

/** A bowl's own effect given the other parts: `mean` less `lean` · (those parts − their means), and what is left. */
export interface BowlPosterior {
  name: string;
  mean: number;
  variance: number;
  /** Covariance with the other parts. */
  covariance: number[];
}

/** What one film's own finding added to the sum of its parts. */
export interface FilmMessage extends Message {
  name: string;
  parts: Parts;
}

/** Rows of the joint normal, each with its coefficient. */
export type Parts = readonly (readonly [row: number, by: number])[];

/** Rows of the joint normal before the icings'. */
export const KITCHEN_ROW = 0;
export const SECONDS_ROW = 1;
export const FIRST_ICING_ROW = 2;

/** What a film's expected factor goes by, its bowl apart. */
export interface PartsOf {
  icing: string;
  place: string;
  heat?: string | undefined;
  secondsLn?: number | undefined;
}

/** The parts whose sum is expected of a film; what was never observed is left out. */
export function partsOf(
  { icings, places, heats }: Pick<FactorPosterior, "icings" | "places" | "heats">,
  { icing, place, heat, secondsLn = 0 }: PartsOf,
): Parts {
  const firstPlace = FIRST_ICING_ROW + icings.length;
  const rows: [number, number][] = [
    [FIRST_ICING_ROW, indexOf(icings, icing)],
    heat === undefined
      ? [firstPlace, indexOf(places, place)]
      : [firstPlace + places.length, indexOf(heats, heat)],
  ];
  return [
    ...(heat === undefined ? ([[KITCHEN_ROW, 1]] as const) : []),
    ...rows.flatMap(([first, index]) => (index < 0 ? [] : ([[first + index, 1]] as const))),
    ...(secondsLn === 0 ? [] : ([[SECONDS_ROW, secondsLn]] as const)),
  ];
}

/** The group of this name; −1 when nothing is known of it. */
export const indexOf = (groups: readonly { name: string }[], name: string): number =>
  groups.findIndex((group) => group.name === name);

/** Each name with how often it comes, by name. */
export function groupsOf(names: readonly string[]): Group[] {
  const tests = new Map<string, number>();
  for (const name of names) tests.set(name, (tests.get(name) ?? 0) + 1);
  return [...tests].map(([name, tests]) => ({ name, tests })).toSorted((a, b) => byCode(a.name, b.name));
}

export const byCode = (a: string, b: string): number => (a < b ? -1 : Number(a > b));

/** A fixed order, so that sums round alike whatever order the evidence came in. */
export function byContent(a: Observed, b: Observed): number {
  return (
    Number(a.byAct === true) - Number(b.byAct === true) ||
    byCode(a.icing, b.icing) ||
    byCode(a.place, b.place) ||
    Number(a.isSlow === true) - Number(b.isSlow === true) ||
    byCode(a.bowl ?? "", b.bowl ?? "") ||
    byCode(a.heat ?? "", b.heat ?? "") ||
    bySize(a.secondsLn ?? 0, b.secondsLn ?? 0) ||
    bySize(a.weight ?? 1, b.weight ?? 1) ||
    bySize(a.lnLow, b.lnLow) ||
    bySize(a.lnHigh, b.lnHigh) ||
    byCode(a.film ?? "", b.film ?? "")
  );
}

const bySize = (a: number, b: number): number => (a < b ? -1 : Number(a > b));
