import { remembered } from "#shared/collections.ts";
import type { Evidence } from "#shared/drying/uncertainty/learning.ts";
import type { EvidenceFact } from "#shared/kitchen/model/event.ts";
import { closesLn } from "#shared/icing/seconds-test.ts";
import { filmKey, staysOf } from "#shared/kitchen/model/lookups.ts";
import type { Film, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Design, Layer } from "#shared/kitchen/model/vocabulary.ts";
import { DAY_MS, MIN_MS } from "#shared/time.ts";

type Quantity = EvidenceFact["quantity"];

/** What hands found at one moment: the film's time lies before or after it. `ln` is the factor that would put it just there. */
interface Clue {
  atMs: number;
  ln: number;
  lies: "before" | "after";
  /** From an act that waited for the film, not from a touch. */
  byAct: boolean;
}

/** What every film, alive or archived, says of the kitchen's factors. */
export const evidenceOf = (kitchen: Kitchen): EvidenceFact[] => [
  ...kitchen.evidence,
  ...Object.values(kitchen.trays).flatMap((tray) => evidenceOfTray(kitchen, tray)),
];

/** The newest findings are learned from: older ones say little of today's icing. */
const LEARNED_FROM = 600;

/** What the kitchen learns from, oldest first. */
export const lessonsOf = (kitchen: Kitchen): EvidenceFact[] =>
  evidenceOf(kitchen)
    .toSorted((a, b) => a.atMs - b.atMs)
    .slice(-LEARNED_FROM);

/** What one tray's films say: at most one item for each film and quantity, its clues taken together. */
export const evidenceOfTray = (kitchen: Kitchen, tray: Tray): readonly EvidenceFact[] =>
  factsOf(tray, kitchen.designs[tray.designId]);

const factsOf = remembered((tray: Tray, design: Design | undefined): readonly EvidenceFact[] =>
  tray.films.flatMap((film) => {
    const layer = design?.layers[film.layer];
    if (layer === undefined || film.findings.length === 0) return [];
    return (["skin", "dryThrough"] as const).flatMap((quantity) => {
      const clues = cluesOf(film, quantity).toSorted((a, b) => a.atMs - b.atMs);
      const last = clues.at(-1);
      if (last === undefined) return [];
      const bounds = interval(clues, film.clockStartMs);
      const shown = shownBefore(tray, film, quantity, bounds.closedMs);
      const heat = heatBefore(tray, film, last.atMs);
      return [
        {
          quantity,
          icing: layer.icingId,
          place: longestPlace(tray, film.clockStartMs, last.atMs),
          ...bowlOf(film, layer),
          ...(heat === undefined ? {} : { heat }),
          ...bounds.of,
          atMs: last.atMs,
          trayNumber: tray.number,
          layer: film.layer,
          ...(shown === undefined ? {} : { shown }),
        },
      ];
    });
  }),
);

/** What a lead said of an icing: that it dries slowly. */
export const isSlow = ({ icings }: Kitchen, icingId: string): { isSlow?: true } =>
  icings[icingId]?.isSlow === true ? { isSlow: true } : {};

/** The bowl a film came from, as the learning takes it. */
export const bowlOf = (
  { bowl }: Pick<Film, "bowl">,
  { consistency }: Pick<Layer, "consistency">,
): Pick<Evidence, "bowl" | "secondsLn"> =>
  bowl === undefined
    ? {}
    : {
        bowl: bowl.id,
        ...(bowl.closesS === undefined ? {} : { secondsLn: closesLn(consistency, bowl.closesS) }),
      };

/** Under heat for more of its time than this, a film says something of the heat, not of the air. */
const HEATED_SHARE = 0.02;

/** The heat that had most to do with what was found of a film by then. */
function heatBefore({ heats, count }: Tray, film: Film, untilMs: number): EvidenceFact["heat"] {
  const own = heats.filter(({ layer, startedAtMs }) => layer === film.layer && startedAtMs < untilMs);
  const heatedMs = own.reduce(
    (sum, { toolKind, laps, startedAtMs, endedAtMs }) =>
      sum +
      (toolKind === "hot-air"
        ? laps.reduce((lapped, { fromMs, toMs }) => lapped + toMs - fromMs, 0) / count
        : Math.min(endedAtMs, untilMs) - startedAtMs),
    0,
  );
  return heatedMs > HEATED_SHARE * (untilMs - film.clockStartMs) ? own.at(-1)?.toolKind : undefined;
}

/**
 * What the learning takes, oldest first: an open end is infinite; a film's age is counted in days of work before the newest
 * finding, so that it hangs on the findings alone; one still on the board bears its name.
 */
export function teachingOf(
  kitchen: Kitchen,
  lessons: readonly EvidenceFact[] = lessonsOf(kitchen),
): Evidence[] {
  const names = new Map(
    Object.values(kitchen.trays).flatMap((tray) =>
      evidenceOfTray(kitchen, tray).map((fact) => [fact, filmKey(tray.id, fact.layer)] as const),
    ),
  );
  const newestMs = lessons.at(-1)?.atMs ?? 0;
  const openDays = kitchen.settings.opening.filter((day) => day !== null).length;
  return lessons.map((fact) => {
    const { quantity, icing, place, bowl, secondsLn, heat, lnLow, lnHigh, byAct } = fact;
    const film = names.get(fact);
    return {
      quantity,
      icing,
      place,
      lnLow: lnLow ?? Number.NEGATIVE_INFINITY,
      lnHigh: lnHigh ?? Number.POSITIVE_INFINITY,
      ageDays: Math.floor(((newestMs - fact.atMs) / DAY_MS) * (openDays / 7)),
      ...isSlow(kitchen, icing),
      ...(bowl === undefined ? {} : { bowl }),
      ...(secondsLn === undefined ? {} : { secondsLn }),
      ...(heat === undefined ? {} : { heat }),
      ...(byAct === undefined ? {} : { byAct }),
      ...(film === undefined ? {} : { film }),
    };
  });
}

/** An act follows a look only where a finger found the film not there yet in this last part of its time. */
const LOOKED_SHARE = 0.5;

/**
 * Touch tests and later acts as clues. Where a risk was accepted, the fold leaves `skinnedBy` and `dryBy` out, so laying
 * or packing too early says nothing here. Nor does an act that only went by the board: the board would learn from itself.
 */
function cluesOf(film: Film, quantity: Quantity): Clue[] {
  const clues = film.findings.map(({ atMs, finding, weighed }) => {
    const reached = quantity === "skin" ? finding !== "still wet" : finding === "firm";
    const ln = quantity === "skin" ? weighed.skinLn : weighed.dryThroughLn;
    return clue({ atMs, ln, lies: reached ? "before" : "after", byAct: false });
  });
  const act =
    quantity === "skin"
      ? { atMs: film.skinnedBy?.atMs, ln: film.skinnedBy?.skinLn }
      : { atMs: film.dryBy?.atMs, ln: film.dryBy?.dryThroughLn };
  const acted = clue({ ...act, lies: "before", byAct: true });
  const found = clues.filter((one) => one !== undefined);
  if (acted === undefined) return found;
  const lookedFromMs = acted.atMs - LOOKED_SHARE * (acted.atMs - film.clockStartMs);
  const wasLooked = found.some(({ lies, atMs }) => lies === "after" && atMs >= lookedFromMs);
  return wasLooked ? [...found, acted] : found;
}

/** A finding that could not be weighed is no clue. */
const clue = ({
  atMs,
  ln,
  ...rest
}: Omit<Clue, "atMs" | "ln"> & { atMs: number | undefined; ln: number | undefined }): Clue | undefined =>
  atMs === undefined || ln === undefined ? undefined : { atMs, ln, ...rest };

/** The tightest bounds the clues leave. One that contradicts what came before stands alone: the later finger is believed. */
function interval(
  clues: readonly Clue[],
  clockStartMs: number,
): {
  of: Pick<EvidenceFact, "lnLow" | "lnHigh" | "foundMin" | "byAct" | "contradicted">;
  /** When the last of the bounds was found. */
  closedMs: number;
} {
  let low: Clue | undefined;
  let high: Clue | undefined;
  let contradicted = false;
  for (const next of clues) {
    if (next.lies === "after" && (low === undefined || next.ln > low.ln)) low = next;
    if (next.lies === "before" && (high === undefined || next.ln < high.ln)) high = next;
    if (low === undefined || high === undefined || low.ln < high.ln) continue;
    contradicted = true;
    if (next.lies === "after") high = undefined;
    else low = undefined;
  }
  const minutes = (one: Clue | undefined): number | null =>
    one === undefined ? null : (one.atMs - clockStartMs) / MIN_MS;
  return {
    of: {
      lnLow: low?.ln ?? null,
      lnHigh: high?.ln ?? null,
      foundMin: { low: minutes(low), high: minutes(high) },
      ...(high?.byAct === true ? { byAct: true } : {}),
      ...(contradicted ? { contradicted } : {}),
    },
    closedMs: Math.max(low?.atMs ?? 0, high?.atMs ?? 0),
  };
}

/** The band first shown to a finger in the air in which the film was then found: by `closedMs`, and after the last move or heat. */
function shownBefore(tray: Tray, film: Film, quantity: Quantity, closedMs: number): EvidenceFact["shown"] {
  const handledMs = lastHandledMs(tray, film, closedMs);
  const found = film.findings.find(
    ({ atMs, shown }) => atMs > handledMs && atMs <= closedMs && shown?.[quantity] !== undefined,
  );
  return found?.shown?.[quantity];
}

/** When the film last came into another air: what was forecast before that is void. */
function lastHandledMs(tray: Tray, film: Film, untilMs: number): number {
  const moves = staysOf(tray).slice(1);
  const moments = [
    ...moves.map(({ fromMs }) => fromMs),
    ...tray.heats.filter(({ layer }) => layer === film.layer).map(({ endedAtMs }) => endedAtMs),
  ];
  return Math.max(film.clockStartMs, ...moments.filter((atMs) => atMs <= untilMs));
}

/** Where a tray stood longest between two moments. */
function longestPlace(tray: Tray, fromMs: number, toMs: number): string {
  let longest = { placeId: tray.placeId, lastsMs: -1 };
  for (const [index, { placeId, fromMs: cameMs, untilMs }] of staysOf(tray).entries()) {
    const lastsMs = Math.min(untilMs, toMs) - (index === 0 ? fromMs : Math.max(cameMs, fromMs));
    if (lastsMs > longest.lastsMs) longest = { placeId, lastsMs };
  }
  return longest.placeId;
}
