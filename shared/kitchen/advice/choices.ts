import { partedAt } from "#shared/drying/film/air.ts";
import { DRIED_TO_PCT, OVEN_MIN, THINNER } from "#shared/drying/uncertainty/compare.ts";
import { HOT_AIR_MIN } from "#shared/heat/tool.ts";
import { isPoured } from "#shared/icing/quantities.ts";
import type { Tried } from "./trial.ts";
import { airAt } from "#shared/kitchen/forecast/air.ts";
import { dryingPlaceOf, filmOf, type Solve, solveAfresh } from "#shared/kitchen/forecast/films.ts";
import { aliveTrays, filmKey, type Kitchen, type Tray, filmLayersOf } from "#shared/kitchen/model/state.ts";
import type { Layer, Place } from "#shared/kitchen/model/vocabulary.ts";

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
  | { kind: "thinner"; byPct: number };

/** One of the kitchen's own choices. */
export interface Choice {
  act: HelpAct;
  /** Undefined where the choice leaves a tray as it is. */
  on: (tray: Tray) => Tried | undefined;
}

/** Every choice the kitchen has for these trays: other places with room, heat, drier air, thinner films. */
export function choicesFor(kitchen: Kitchen, trays: readonly Tray[], nowMs: number): Choice[] {
  return [
    ...Object.values(kitchen.places).flatMap((place) => moves(kitchen, trays, place, nowMs)),
    ...heating(kitchen, trays),
    ...drying(kitchen, trays, nowMs),
    ...thinning(kitchen, trays),
  ];
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

/** As many trays at a time as the ovens hold, or one cookie after another under each hot-air tool: the last decides. */
function heating(kitchen: Kitchen, trays: readonly Tray[]): Choice[] {
  const inService = Object.values(kitchen.tools).filter((tool) => tool.outOfService === undefined);
  const ovens = inService.filter(({ kind }) => kind === "oven");
  const hotAir = inService.filter(({ kind }) => kind === "hot-air");
  const [tool] = [...ovens, ...hotAir];
  if (tool === undefined) return [];
  const toLay = trays.filter((tray) => layersToLay(kitchen, tray).length > 0);
  const cookies = toLay.reduce((sum, { count }) => sum + count, 0);
  const atATime = ovens.reduce((sum, { placeId }) => sum + (kitchen.places[placeId ?? ""]?.capacity ?? 1), 0);
  const heatMin =
    tool.kind === "oven"
      ? OVEN_MIN * Math.ceil(toLay.length / atATime)
      : HOT_AIR_MIN * Math.ceil(cookies / hotAir.length);
  return [
    {
      act: { kind: "heat-set", toolName: tool.name },
      on: (tray) =>
        toLay.includes(tray) ? { tray, solve: solveAfresh, inSameAir: true, heatMin } : undefined,
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
  return (key, question) => {
    const nowS = (nowMs - (startMs.get(key) ?? nowMs)) / 1000;
    const spells = partedAt(question.spells, nowS).map(({ fromS, air }) =>
      fromS < nowS ? { fromS, air } : { fromS, air: { ...air, rhPct: Math.min(DRIED_TO_PCT, air.rhPct) } },
    );
    return solveAfresh(key, { ...question, spells });
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
