import type { ReachedBand } from "#shared/drying/uncertainty/band.ts";
import { evidenceOfTray } from "#shared/kitchen/forecast/evidence.ts";
import { inHandOf } from "#shared/kitchen/model/lookups.ts";
import type { EvidenceFact } from "#shared/kitchen/model/event.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { LAID_BY, type LaidBy, restAfter } from "#shared/kitchen/tray/route.ts";
import { MIN_MS } from "#shared/time.ts";
import { surpriseOf } from "./trust.ts";

/** A span of a tray's way: its icing laid, under heat, or at rest. Layers count from 0. */
export interface StripPart {
  stage: "laying" | "heat" | "crusting" | "full-dry";
  layer: number;
  how: LaidBy;
  fromMs: number;
  toMs: number;
}

/** What hands found of a film beside the forecast they were shown. */
export interface FoundBeside {
  layer: number;
  icing: string | undefined;
  quantity: EvidenceFact["quantity"];
  clockStartMs: number;
  shown: ReachedBand;
  /** Not yet then; absent where nobody found it so. */
  notYetMs?: number;
  /** There by then, likewise. */
  byMs?: number;
  is: "inside" | "sooner" | "later";
}

/** A tray's way from its first act until now, or until it was packed. */
export interface TrayStrip {
  fromMs: number;
  toMs: number;
  isPacked: boolean;
  /** In order, without gaps. */
  parts: readonly StripPart[];
  found: readonly FoundBeside[];
}

/** Undefined before anything was laid. */
export function trayStrip(kitchen: Kitchen, tray: Tray, nowMs: number): TrayStrip | undefined {
  const design = kitchen.designs[tray.designId];
  if (design === undefined) return undefined;
  const { status } = tray;
  const isPacked = status.stage === "packed";
  const toMs = isPacked ? status.atMs : nowMs;
  const parts = withHeats(tray, design, restsAndLaying(tray, design, toMs), toMs).filter(
    (part) => part.toMs > part.fromMs,
  );
  const [first] = parts;
  if (first === undefined) return undefined;
  return { fromMs: first.fromMs, toMs, isPacked, parts, found: foundOn(kitchen, tray, design) };
}

const howOf = (design: Design, layer: number): LaidBy =>
  LAID_BY[design.layers[layer]?.consistency ?? "flood"];

/** What a tray did but for heat: each layer laid, then its rest until the next is begun. */
function restsAndLaying(tray: Tray, design: Design, toMs: number): StripPart[] {
  const hand = inHandOf(tray);
  const laid = [
    ...tray.films.map(({ layer, floodingFromMs, clockStartMs }) => ({ layer, floodingFromMs, clockStartMs })),
    ...(hand === undefined
      ? []
      : [{ layer: hand.layer, floodingFromMs: hand.startedAtMs, clockStartMs: toMs }]),
  ];
  return laid.flatMap(({ layer, floodingFromMs, clockStartMs }, k): StripPart[] => {
    const how = howOf(design, layer);
    return [
      { stage: "laying", layer, how, fromMs: floodingFromMs, toMs: clockStartMs },
      {
        stage: restAfter(design, layer).stage,
        layer,
        how,
        fromMs: clockStartMs,
        toMs: laid[k + 1]?.floodingFromMs ?? toMs,
      },
    ];
  });
}

/** The same with heat in place of what it took the time of. */
function withHeats(tray: Tray, design: Design, parts: readonly StripPart[], toMs: number): StripPart[] {
  const running = tray.status.stage === "heat-set" ? [{ ...tray.status.heat, endedAtMs: toMs }] : [];
  return [...tray.heats, ...running].reduce<StripPart[]>(
    (before, { layer, startedAtMs: fromMs, endedAtMs }) => {
      const heat: StripPart = { stage: "heat", layer, how: howOf(design, layer), fromMs, toMs: endedAtMs };
      const left = before.flatMap((part) => [
        { ...part, toMs: Math.min(part.toMs, heat.fromMs) },
        { ...part, fromMs: Math.max(part.fromMs, heat.toMs) },
      ]);
      return [...left.filter((part) => part.toMs > part.fromMs), heat].toSorted(
        (a, b) => a.fromMs - b.fromMs,
      );
    },
    [...parts],
  );
}

const foundOn = (kitchen: Kitchen, tray: Tray, design: Design): FoundBeside[] =>
  evidenceOfTray(kitchen, tray).flatMap(({ quantity, layer, shown, foundMin }) => {
    const film = tray.films.find((one) => one.layer === layer);
    if (film === undefined || shown === undefined || foundMin === undefined) return [];
    // Not yet, before anybody expected it: that compares nothing.
    if (foundMin.high === null && (foundMin.low ?? 0) < shown.earliestMin) return [];
    const { clockStartMs } = film;
    const at = (minutes: number): number => clockStartMs + minutes * MIN_MS;
    return [
      {
        layer,
        icing: kitchen.icings[design.layers[layer]?.icingId ?? ""]?.name,
        quantity,
        clockStartMs,
        shown: {
          earliestMs: at(shown.earliestMin),
          likelyMs: at(shown.likelyMin),
          latestMs: at(shown.latestMin),
        },
        ...(foundMin.low !== null && { notYetMs: at(foundMin.low) }),
        ...(foundMin.high !== null && { byMs: at(foundMin.high) }),
        is: surpriseOf(shown, foundMin)?.is ?? "inside",
      },
    ];
  });
