import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Design, Layer, ProblemKind } from "#shared/kitchen/model/vocabulary.ts";

/** "14:32", kitchen time. */
export const clockTime = (atMs: number, timeZone: string): string =>
  formatter(timeZone, { hour: "2-digit", minute: "2-digit" }).format(atMs);

/** "14:32:05", kitchen time: what a hand has just done, or when a screen last heard. */
export const timeToSecond = (atMs: number, timeZone: string): string =>
  formatter(timeZone, { hour: "2-digit", minute: "2-digit", second: "2-digit" }).format(atMs);

/** "Fri 09:00", kitchen time. */
export const dayTime = (atMs: number, timeZone: string): string =>
  `${formatter(timeZone, { weekday: "short" }).format(atMs)} ${clockTime(atMs, timeZone)}`;

const formatters = new Map<string, Intl.DateTimeFormat>();

/** Making a formatter costs a hundred times more than using it. */
function formatter(timeZone: string, fields: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${timeZone} ${Object.keys(fields).join()}`;
  const known = formatters.get(key);
  if (known !== undefined) return known;
  const made = new Intl.DateTimeFormat("en-GB", { ...fields, timeZone, hourCycle: "h23" });
  formatters.set(key, made);
  return made;
}

/** "layer 2 (sea glass)". */
export function layerName(kitchen: Kitchen, design: Design | undefined, layer: number): string {
  const icing = kitchen.icings[design?.layers[layer]?.icingId ?? ""]?.name;
  return `layer ${layer + 1}${icing === undefined ? "" : ` (${icing})`}`;
}

/** "sea glass, flood": a layer's icing and consistency. */
export const icingWords = (kitchen: Kitchen, layer: Layer): string =>
  `${kitchen.icings[layer.icingId]?.name ?? "icing"}, ${layer.consistency}`;

/** "12 cookies", "1 cookie". */
export const cookies = (count: number): string => `${count} ${count === 1 ? "cookie" : "cookies"}`;

/** What each problem looks like, to choose by. */
export const PROBLEM_WORDS: Readonly<Record<ProblemKind, string>> = {
  bled: "Bled: one colour ran into another",
  sunk: "Sunk: the middle fell in",
  cracked: "Cracked",
  swollen: "Swollen by heat",
  dented: "Dented: touched while wet",
  smeared: "Smeared",
  burned: "Burned",
  broken: "Broken cookie",
};

/** First letter down, for the midst of one. */
export const lowered = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** "Lantern", "Lantern and Moon", "Lantern, Moon and Star". */
export function listed(names: readonly string[]): string {
  const last = names.at(-1) ?? "";
  return names.length < 2 ? last : `${names.slice(0, -1).join(", ")} and ${last}`;
}

/** First letter up, for the start of a sentence. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
