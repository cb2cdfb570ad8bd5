import { partedAt } from "#shared/drying/film/air.ts";
import { DRIED_TO_PCT, THINNER } from "#shared/drying/uncertainty/compare.ts";
import { isPoured } from "#shared/icing/poured.ts";
import type { Tried } from "./trial.ts";
import { airAt } from "#shared/kitchen/forecast/air.ts";
import { filmOf, type Solve, solveAfresh } from "#shared/kitchen/forecast/films.ts";
import { dryingPlaceOf } from "#shared/kitchen/model/lookups.ts";
import { aliveTrays, filmKey, filmLayersOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { closingLater, nextClosingMs } from "#shared/kitchen/model/opening-hours.ts";
import type { Settings } from "#shared/kitchen/model/settings.ts";
import { crewOf } from "#shared/kitchen/plan/crew.ts";
import { openHours } from "#shared/kitchen/plan/hours.ts";
import { MIN_MS } from "#shared/time.ts";
import type { Layer, Place } from "#shared/kitchen/model/vocabulary.ts";

/** How much later the kitchen may close, min. */
const LATER_MIN = 60;
/** A room is dried from at least this many points above, % RH. */
const DAMPER_BY_PCT = 2;

/** What hands would do. Names as they were typed; tray numbers in ascending order. */
export type HelpAct =
  | {
      kind: "move";
      trayIds: readonly string[];
      trayNumbers: readonly number[];
      placeId: string;
      placeName: string;
    }
  | { kind: "heat-set"; toolName: string }
  | { kind: "drier air"; fromPct: number; toPct: number }
  | { kind: "thinner"; byPct: number }
  | { kind: "more hands"; hands: number }
  | { kind: "later closing"; closesMs: number; atMs: number };

/** One of the kitchen's own choices. */
export interface Choice {
  act: HelpAct;
  /** Undefined where the choice leaves a tray as it is. */
  on: (tray: Tray) => Tried | undefined;
  /** The kitchen's settings as they would be. */
  settings?: Partial<Settings>;
}

/**
 * Every choice the kitchen has for these trays: other places with room, heat, drier air, thinner films, one more pair of hands,
 * an hour more before the closing that makes them late or else the next.
 */
export function choicesFor(
  kitchen: Kitchen,
  trays: readonly Tray[],
  nowMs: number,
  closesMs = nextClosingMs(kitchen.settings, nowMs),
): Choice[] {
  return [
    ...Object.values(kitchen.places).flatMap((place) => moves(kitchen, trays, place, nowMs)),
    ...heating(kitchen, trays),
    ...drying(kitchen, trays, nowMs),
    ...thinning(kitchen, trays),
    moreHands(kitchen, nowMs),
    ...laterClosing(kitchen, closesMs),
  ];
}

const leftAsTheyAre = (): undefined => undefined;

function moreHands(kitchen: Kitchen, nowMs: number): Choice {
  const hands = crewOf(kitchen, openHours(kitchen.settings, nowMs), nowMs).length + 1;
  return { act: { kind: "more hands", hands }, on: leftAsTheyAre, settings: { hands } };
}

function laterClosing({ settings }: Kitchen, closesMs: number): Choice[] {
  const opening = closingLater(settings, closesMs, LATER_MIN);
  if (opening === undefined) return [];
  const atMs = closesMs + LATER_MIN * MIN_MS;
  return [{ act: { kind: "later closing", closesMs, atMs }, on: leftAsTheyAre, settings: { opening } }];
}

/** As many of the last trays as still find room there. */
function moves(kitchen: Kitchen, trays: readonly Tray[], place: Place, nowMs: number): Choice[] {
  if (place.kind !== "fan-rack" && place.kind !== "warm-cabinet") return [];
  const isBroken = Object.values(kitchen.tools).some(
    (tool) => tool.placeId === place.id && tool.outOfService !== undefined,
  );
  if (isBroken) return [];
  const taken = aliveTrays(kitchen).filter((tray) => dryingPlaceOf(tray).placeId === place.id).length;
  const moved = trays
    .filter((tray) => dryingPlaceOf(tray).placeId !== place.id && tray.status.stage !== "heat-set")
    .slice(0, Math.max(0, place.capacity - taken));
  if (moved.length === 0) return [];
  const placed = { placeId: place.id, fromMs: nowMs };
  return [
    {
      act: {
        kind: "move",
        trayIds: moved.map(({ id }) => id),
        trayNumbers: moved.map(({ number }) => number).toSorted((a, b) => a - b),
        placeId: place.id,
        placeName: place.name,
      },
      on: (tray) =>
        moved.includes(tray)
          ? { tray: { ...tray, placements: [...tray.placements, placed] }, solve: solveAfresh }
          : undefined,
    },
  ];
}

/** Each wet layer, in an oven where there is one, else cookie by cookie: the plan says how long that takes. */
function heating(kitchen: Kitchen, trays: readonly Tray[]): Choice[] {
  const inService = Object.values(kitchen.tools).filter((tool) => tool.outOfService === undefined);
  const tool =
    inService.find(({ kind, placeId }) => kind === "oven" && placeId !== undefined) ??
    inService.find(({ kind }) => kind === "hot-air");
  if (tool === undefined) return [];
  const heat = tool.kind === "oven" ? "oven" : "hot-air";
  const toLay = new Set(trays.filter((tray) => layersToLay(kitchen, tray).length > 0));
  return [
    {
      act: { kind: "heat-set", toolName: tool.name },
      on: (tray) => (toLay.has(tray) ? { tray, solve: solveAfresh, inSameAir: true, heat } : undefined),
    },
  ];
}

function drying(kitchen: Kitchen, trays: readonly Tray[], nowMs: number): Choice[] {
  const dampest = Math.max(
    0,
    ...trays.map(
      (tray) => airAt(kitchen, dryingPlaceOf(tray).placeId, nowMs, nowMs).spells[0]?.air.rhPct ?? 0,
    ),
  );
  if (dampest < DRIED_TO_PCT + DAMPER_BY_PCT) return [];
  return [
    {
      act: { kind: "drier air", fromPct: Math.round(dampest), toPct: DRIED_TO_PCT },
      on: (tray) => ({ tray, solve: solveDriedFrom(kitchen, tray, nowMs) }),
    },
  ];
}

/** Only air still to come can be dried: of a film already laid, what lies beyond its age. */
function solveDriedFrom(kitchen: Kitchen, tray: Tray, nowMs: number): Solve {
  const startMs = new Map(
    filmLayersOf(tray).map((layer) => [filmKey(tray.id, layer), filmOf(kitchen, tray, layer)?.clockStartMs]),
  );
  return (key, ask) => {
    const question = ask();
    const nowS = (nowMs - (startMs.get(key) ?? nowMs)) / 1000;
    const spells = partedAt(question.spells, nowS).map(({ fromS, air }) =>
      fromS < nowS ? { fromS, air } : { fromS, air: { ...air, rhPct: Math.min(DRIED_TO_PCT, air.rhPct) } },
    );
    return solveAfresh(key, () => ({ ...question, spells }));
  };
}

function thinning(kitchen: Kitchen, trays: readonly Tray[]): Choice[] {
  const hasPoured = (tray: Tray): boolean =>
    layersToLay(kitchen, tray).some(({ consistency }) => isPoured(consistency));
  if (!trays.some(hasPoured)) return [];
  return [
    {
      act: { kind: "thinner", byPct: Math.round((1 - THINNER) * 100) },
      on: (tray) => ({ tray, solve: solveAfresh, inSameAir: true, thinner: true }),
    },
  ];
}

export const layersToLay = (kitchen: Kitchen, tray: Tray): Layer[] =>
  (kitchen.designs[tray.designId]?.layers ?? []).slice(filmLayersOf(tray).length);
