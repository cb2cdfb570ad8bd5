import type { Band, ReachedBand } from "#shared/drying/uncertainty/band.ts";
import { unreachable } from "#shared/outcome.ts";
import type { WhyNever } from "#shared/drying/film/film.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { filmKey, goodOn } from "#shared/kitchen/model/lookups.ts";
import type { Film, HeatSet, Kitchen, TrayStatus, Tray } from "#shared/kitchen/model/state.ts";
import type { Design, Icing, Layer, Need } from "#shared/kitchen/model/vocabulary.ts";

/** What a layer waits for: for each earlier layer it touches, wet (lay it at once), skin, or dry through. */
export function needsOf(design: Layered, layer: number): readonly LayerNeed[] {
  const known = needs.get(design) ?? design.layers.map((_, each) => needsOfLayer(design, each));
  needs.set(design, known);
  return known[layer] ?? [];
}

/** A design as far as its layers go. */
type Layered = Pick<Design, "layers">;

interface LayerNeed {
  layer: number;
  need: Need;
}

/** Asked of every tray with every look at the alerts; a design never changes in place. */
const needs = new WeakMap<Layered, readonly (readonly LayerNeed[])[]>();

function needsOfLayer(design: Layered, layer: number): LayerNeed[] {
  const own = design.layers[layer];
  if (own === undefined) return [];
  const touched = own.touches ?? Array.from({ length: layer }, (_, earlier) => earlier);
  return touched.map((earlier) => ({
    layer: earlier,
    need: own.waits?.find((wait) => wait.layer === earlier)?.need ?? defaultNeed(design.layers[earlier], own),
  }));
}

/** Same icing laid wet on wet; another colour waits for the skin, or it bleeds. */
const defaultNeed = (earlier: Layer | undefined, later: Layer): Need =>
  earlier?.icingId === later.icingId ? "wet" : "skin";

/** Where a tray rests once a layer's flooding has ended: crusting before a neighbour, full-dry before a dry-through wait or packing. */
export function restAfter(
  design: Design,
  layer: number,
): Extract<TrayStatus, { stage: "crusting" | "full-dry" }> {
  const nextLayer = layer + 1;
  if (nextLayer >= design.layers.length) return { stage: "full-dry" };
  const drying = needsOf(design, nextLayer).some(({ need }) => need === "dry through");
  return drying ? { stage: "full-dry", nextLayer } : { stage: "crusting", nextLayer };
}

/** What a hand does next to a tray, as its button and its tile name it. Layers count from 0. */
export type ActName =
  | { kind: "flood" | "flooding"; layer: number; how: LaidBy }
  | { kind: "heat" | "packed" | "touch" }
  | { kind: "pack"; count: number };

export type NextAct =
  | { kind: "flood" | "flooding"; layer: number; how: LaidBy; icing: Icing | undefined }
  | { kind: "heat"; layer: number; heat: HeatSet }
  | { kind: "pack"; count: number }
  | { kind: "packed" };

/** The one next act of a tray. */
export function nextAct(kitchen: Kitchen, tray: Tray): NextAct {
  const { status } = tray;
  const design = kitchen.designs[tray.designId];
  const lay = <Kind extends "flood" | "flooding">(kind: Kind, layer: number) => {
    const own = design?.layers[layer];
    return {
      kind,
      layer,
      how: LAID_BY[own?.consistency ?? "flood"],
      icing: kitchen.icings[own?.icingId ?? ""],
    };
  };
  switch (status.stage) {
    case "queued":
      return lay("flood", 0);
    case "flooding":
      return lay("flooding", status.layer);
    case "heat-set":
      return { kind: "heat", layer: status.heat.layer, heat: status.heat };
    case "crusting":
    case "full-dry": {
      const layer = status.nextLayer;
      return layer === undefined ? { kind: "pack", count: goodOn(tray) } : lay("flood", layer);
    }
    case "packed":
      return { kind: "packed" };
    default:
      return unreachable(status);
  }
}

/** How a layer of this consistency is laid. */
export const LAID_BY = { outline: "pipe", detail: "pipe", flood: "flood", "top-coat": "top-coat" } as const;

export type LaidBy = (typeof LAID_BY)[keyof typeof LAID_BY];

export type Readiness =
  | { is: "ready"; sinceMs: number }
  | { is: "coming"; band: ReachedBand }
  | { is: "check by touch"; sinceMs: number }
  | { is: "never"; why: WhyNever }
  | { is: "unknown" }
  | { is: "in hand"; sinceMs: number }
  | { is: "done" };

/**
 * Whether what the tray waits on has come. A wait is over when a touch says so, or the likeliest time has passed; past the
 * latest time with no touch, the fingertip decides: "check by touch".
 */
export function readiness(kitchen: Kitchen, forecasts: Forecasts, tray: Tray, nowMs: number): Readiness {
  const { status } = tray;
  switch (status.stage) {
    case "queued":
      return { is: "ready", sinceMs: tray.addedAtMs };
    case "flooding":
      return { is: "in hand", sinceMs: status.startedAtMs };
    case "heat-set":
      return { is: "in hand", sinceMs: status.heat.lapFromMs };
    case "crusting":
    case "full-dry":
      return latestWait(waitsOf(kitchen, forecasts, tray), tray, nowMs);
    case "packed":
      return { is: "done" };
    default:
      return unreachable(status);
  }
}

/** One thing a tray waits on: reached by touch at a moment, or forecast. */
export interface Wait {
  layer: number;
  need: Need;
  reached: number | undefined;
  band: Band | undefined;
}

/** What the tray's next act waits on, film by film. */
export function waitsOf({ designs }: Pick<Kitchen, "designs">, forecasts: Forecasts, tray: Tray): Wait[] {
  const design = designs[tray.designId];
  const { status } = tray;
  if (design === undefined || (status.stage !== "crusting" && status.stage !== "full-dry")) return [];
  const needs =
    status.nextLayer === undefined
      ? tray.films.map(({ layer }) => ({ layer, need: "dry through" as const }))
      : needsOf(design, status.nextLayer);
  const waits: Wait[] = [];
  for (const { layer, need } of needs) {
    const film = need === "wet" ? undefined : tray.films.find((one) => one.layer === layer);
    if (film === undefined || need === "wet") continue;
    const outlook = forecasts.films[filmKey(tray.id, layer)];
    const band = need === "skin" ? outlook?.skin : outlook?.dryThrough;
    waits.push({ layer, need, band, reached: foundAt(film, need) });
  }
  return waits;
}

/** When hands first found that a film had skinned, or was firm; a later "still wet" overrules what was found before it. */
export function foundAt(film: Film, need: "skin" | "dry through"): number | undefined {
  const known = need === "skin" ? film.skinnedBy : film.dryBy;
  if (film.findings.length === 0) return known?.atMs;
  const lastWet = film.findings.findLastIndex(({ finding }) => finding === "still wet");
  const since = film.findings.slice(lastWet + 1).find(({ finding }) => finding === "firm" || need === "skin");
  return since?.atMs ?? known?.atMs;
}

/** The wait that ends last decides; once all are over, a film past its own latest time that nothing vouches for. */
export function latestWait(waits: readonly Wait[], tray: Tray, nowMs: number): Readiness {
  let isReached = true;
  let doneMs = tray.films.at(-1)?.clockStartMs ?? tray.addedAtMs;
  for (const { reached } of waits) {
    if (reached === undefined) isReached = false;
    else doneMs = Math.max(doneMs, reached);
  }
  if (isReached) return { is: "ready", sinceMs: doneMs };
  const worst = { earliestMs: -Infinity, likelyMs: doneMs, latestMs: -Infinity };
  let overdueMs = Infinity;
  for (const wait of waits) {
    const { band } = wait;
    if (wait.reached !== undefined) continue;
    if (band === undefined) return { is: "unknown" };
    if ("never" in band) return { is: "never", why: band.never };
    worst.earliestMs = Math.max(worst.earliestMs, band.earliestMs);
    worst.likelyMs = Math.max(worst.likelyMs, band.likelyMs);
    worst.latestMs = Math.max(worst.latestMs, band.latestMs);
    if (band.latestMs <= nowMs && band.latestMs < overdueMs && !isVouchedFor(wait, waits))
      overdueMs = band.latestMs;
  }
  if (worst.likelyMs > nowMs) return { is: "coming", band: worst };
  return overdueMs === Infinity
    ? { is: "ready", sinceMs: worst.likelyMs }
    : { is: "check by touch", sinceMs: Math.max(worst.likelyMs, overdueMs) };
}

/** A film laid later that was found done, as far as this one must be, says that this one is. */
const isVouchedFor = ({ layer, need }: Wait, waits: readonly Wait[]): boolean =>
  waits.some(
    (other) =>
      other.reached !== undefined &&
      other.layer > layer &&
      (other.need === need || other.need === "dry through"),
  );
