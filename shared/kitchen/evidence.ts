import type { Evidence } from "../drying/learning.ts";
import type { EvidenceFact } from "./event.ts";
import type { Film, Kitchen, Tray } from "./state.ts";

const MIN_MS = 60_000;

type Quantity = EvidenceFact["quantity"];

/** What hands found at one moment: the film's time lies before or after it. `ln` is the factor that would put it just there. */
interface Clue {
  atMs: number;
  ln: number;
  lies: "before" | "after";
  /** From an act that waited for the film, not from a touch. */
  byAct: boolean;
}

/** What every film, alive or put away, says of the kitchen's factors. */
export const evidenceOf = (kitchen: Kitchen): EvidenceFact[] => [
  ...kitchen.evidence,
  ...Object.values(kitchen.trays).flatMap((tray) => evidenceOfTray(kitchen, tray)),
];

/** What one tray's films say: at most one item for each film and quantity, its clues taken together. */
export const evidenceOfTray = (kitchen: Kitchen, tray: Tray): EvidenceFact[] =>
  tray.films.flatMap((film) => {
    const icing = kitchen.designs[tray.designId]?.layers[film.layer]?.icingId;
    if (icing === undefined || isUntouched(film)) return [];
    return (["skin", "dryThrough"] as const).flatMap((quantity) => {
      const clues = cluesOf(film, quantity).toSorted((a, b) => a.atMs - b.atMs);
      const last = clues.at(-1);
      if (last === undefined) return [];
      const shown = film.findings.find((found) => found.shown?.[quantity] !== undefined)?.shown?.[quantity];
      return [
        {
          quantity,
          icing,
          place: longestPlace(tray, film.clockStartMs, last.atMs),
          ...interval(clues, film.clockStartMs),
          atMs: last.atMs,
          trayNumber: tray.number,
          layer: film.layer,
          ...(shown === undefined ? {} : { shown }),
        },
      ];
    });
  });

const isUntouched = ({ findings, skinnedBy, dryBy }: Film): boolean =>
  findings.length === 0 && skinnedBy === undefined && dryBy === undefined;

/** As the learning takes it: an open end is infinite. */
export const toEvidence = ({ quantity, icing, place, lnLow, lnHigh, byAct }: EvidenceFact): Evidence => ({
  quantity,
  icing,
  place,
  lnLow: lnLow ?? Number.NEGATIVE_INFINITY,
  lnHigh: lnHigh ?? Number.POSITIVE_INFINITY,
  ...(byAct === undefined ? {} : { byAct }),
});

/**
 * Touch tests and later acts as clues. Where a risk was accepted, the fold leaves `skinnedBy` and `dryBy` out, so laying
 * or packing too early says nothing here.
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
  return [...clues, clue({ ...act, lies: "before", byAct: true })].filter((one) => one !== undefined);
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
): Pick<EvidenceFact, "lnLow" | "lnHigh" | "foundMin" | "byAct" | "contradicted"> {
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
    lnLow: low?.ln ?? null,
    lnHigh: high?.ln ?? null,
    foundMin: { low: minutes(low), high: minutes(high) },
    ...(high?.byAct === true ? { byAct: true } : {}),
    ...(contradicted ? { contradicted } : {}),
  };
}

/** Where a tray stood longest between two moments. */
function longestPlace(tray: Tray, fromMs: number, toMs: number): string {
  let longest = { placeId: tray.placeId, lastsMs: -1 };
  for (const [index, { placeId, fromMs: cameMs }] of tray.placements.entries()) {
    const leftMs = tray.placements[index + 1]?.fromMs ?? Number.POSITIVE_INFINITY;
    const lastsMs = Math.min(leftMs, toMs) - (index === 0 ? fromMs : Math.max(cameMs, fromMs));
    if (lastsMs > longest.lastsMs) longest = { placeId, lastsMs };
  }
  return longest.placeId;
}
