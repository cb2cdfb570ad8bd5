import type { Belief } from "#shared/drying/uncertainty/belief.ts";
import type { AirSpell, FilmSpec } from "#shared/drying/film/film.ts";
import { type AirDoubt, type FilmTimes, forecastFilm } from "#shared/drying/uncertainty/forecast.ts";
import { beliefFor, type FilmOf, type Learned } from "#shared/drying/uncertainty/learning.ts";
import { WATER_SD_PCT } from "#shared/drying/uncertainty/water.ts";
import { airTrouble, doubtOf } from "#shared/drying/air-record/readings.ts";
import { type Band, momentsOf, roundedSpan } from "#shared/drying/uncertainty/band.ts";
import { airAt, airOfFilm, filmSpecOf, waterPctOf } from "./air.ts";
import { readAt, readingsAt } from "#shared/kitchen/tray/place-readings.ts";
import { given, knownOf } from "./clues.ts";
import { bowlOf, isSlow } from "./evidence.ts";
import { bowlAt } from "#shared/kitchen/tray/bowl.ts";
import type { FilmForecast, PlaceForecast } from "#shared/kitchen/model/forecast.ts";
import { dryingPlaceOf, filmKey, inHandOf, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Film, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Consistency, Design, Place, ToolKind } from "#shared/kitchen/model/vocabulary.ts";
import { MIN_MS, SECOND_MS } from "#shared/time.ts";

/** Everything the drying model is asked with. */
export interface FilmQuestion {
  spec: FilmSpec;
  spells: readonly AirSpell[];
  belief: Belief;
  doubt: AirDoubt;
  doubtFromS: number;
  waterSdPct: number;
}

/** Answers a question of the drying model, which is put only if need be; the key says whose film it is, for an answer kept. */
export type Solve = (key: string, ask: () => FilmQuestion) => FilmTimes;

/** Asks the model each time. */
export const solveAfresh: Solve = (_, ask) => {
  const { spec, spells, ...options } = ask();
  return forecastFilm(spec, spells, options);
};

/** When one film skins and dries through. Undefined if the tray has no such film, or its design is gone. */
export function forecastFilmOf(
  kitchen: Kitchen,
  tray: Tray,
  layer: number,
  learned: Learned,
  nowMs: number,
  solve: Solve = solveAfresh,
): FilmForecast | undefined {
  const design = kitchen.designs[tray.designId];
  const own = design?.layers[layer];
  const film = filmOf(kitchen, tray, layer);
  if (design === undefined || own === undefined || film === undefined) return undefined;
  const [skin, dryThrough] = [knownOf(film, "skin"), knownOf(film, "dryThrough")];
  const { basis, roomC, ...air } = airOfFilm(kitchen, afterHeat(tray, nowMs), film, nowMs);
  const isKnown =
    skin !== undefined && "reachedS" in skin && dryThrough !== undefined && "reachedS" in dryThrough;
  const found = { earliestMs: 0, likelyMs: 0, latestMs: 0 };
  const key = filmKey(tray.id, layer);
  const of: FilmOf = {
    icing: own.icingId,
    place: dryingPlaceOf(tray).placeId,
    film: key,
    ...isSlow(kitchen, own.icingId),
    ...bowlOf(film, own),
  };
  const belief = beliefFor(learned, { ...of, heat: heatOn(tray, layer) });
  const forecast = isKnown
    ? { skin: found, dryThrough: found }
    : solve(key, () => ({
        ...air,
        spec: { ...filmSpecOf(kitchen, design, layer), roomC },
        belief,
        waterSdPct: waterSdOf(learned, of.bowl),
      }));
  return {
    skin: momentsOf(given(forecast.skin, skin), film.clockStartMs),
    dryThrough: momentsOf(given(forecast.dryThrough, dryThrough), film.clockStartMs),
    basis,
    ...(skin !== undefined && "reachedS" in skin ? {} : { heatFactors: heatFactors(kitchen, learned, of) }),
  };
}

/** A bowl of which something was found is known by that. */
const waterSdOf = ({ posterior }: Learned, bowl = ""): number =>
  posterior.skin.bowls.some(({ name }) => name === bowl) ? 0 : WATER_SD_PCT;

/** The heat that sets a film: it is under it, or was and had not set. */
function heatOn({ status, heats }: Tray, layer: number): ToolKind | undefined {
  const now = status.stage === "heat-set" ? status.heat : heats.at(-1);
  return now?.layer === layer ? now.toolKind : undefined;
}

/** What is believed of how such a film sets under each kind of heat the kitchen has. */
function heatFactors(
  kitchen: Kitchen,
  learned: Learned,
  of: FilmOf,
): NonNullable<FilmForecast["heatFactors"]> {
  const kinds = new Set(Object.values(kitchen.tools).map(({ kind }) => kind));
  return Object.fromEntries([...kinds].map((heat) => [heat, beliefFor(learned, { ...of, heat }).skin]));
}

/** A layer's film, be it laid or in hand. */
export const filmOf = (kitchen: Kitchen, tray: Tray, layer: number): Film | undefined =>
  tray.films.find((film) => film.layer === layer) ?? filmInHand(kitchen, tray, layer);

function filmInHand(kitchen: Kitchen, tray: Tray, layer: number): Film | undefined {
  const hand = inHandOf(tray);
  if (hand === undefined || hand.layer !== layer) return undefined;
  const { startedAtMs } = hand;
  const own = kitchen.designs[tray.designId]?.layers[layer];
  return {
    layer,
    actId: "",
    floodingFromMs: startedAtMs,
    clockStartMs: startedAtMs,
    by: "kitchen",
    findings: [],
    ...(own !== undefined && { bowl: bowlAt(kitchen, own, startedAtMs) }),
  };
}

/** A tray in an oven comes out by its stop-by, or just now if it is past that: it is not left there to the end. */
function afterHeat(tray: Tray, nowMs: number): Tray {
  if (tray.status.stage !== "heat-set") return tray;
  const { heat, returnTo } = tray.status;
  if (returnTo.placeId === standsAt(tray).placeId) return tray;
  const outMs = Math.max(nowMs, heat.startedAtMs + heat.limits.stopByS * SECOND_MS);
  return { ...tray, placements: [...tray.placements, { ...returnTo, fromMs: outMs }] };
}

/** From laying. */
export interface Spans {
  skin: Band;
  dryThrough: Band;
}

/** A film as it would be laid: its icing's id counts for what was learned of it. */
export interface PlannedFilm {
  spec: FilmSpec;
  icingId: string;
}

/** What tells one planned film from another: its answer is kept under this. */
export const plannedKey = (placeId: string, { spec, icingId }: PlannedFilm): string =>
  `${placeId} ${icingId} ${spec.thicknessMm} ${spec.waterPct}`;

/** Spans of a film laid now in a place. */
export function spansAt(
  kitchen: Kitchen,
  placeId: string,
  film: PlannedFilm,
  learned: Learned,
  nowMs: number,
  solve: Solve = solveAfresh,
): Spans {
  const { spec, icingId } = film;
  const { skin, dryThrough } = solve(plannedKey(placeId, film), () => {
    const { spells, roomC } = airAt(kitchen, placeId, nowMs, nowMs);
    return {
      spec: { ...spec, roomC },
      spells,
      belief: beliefFor(learned, { icing: icingId, place: placeId, ...isSlow(kitchen, icingId) }),
      doubt: doubtOf(readingsAt(kitchen, placeId), nowMs),
      doubtFromS: 0,
      waterSdPct: WATER_SD_PCT,
    };
  });
  return { skin: roundedSpan(skin), dryThrough: roundedSpan(dryThrough) };
}

/** A layer of a design as it would be laid. */
export const plannedFilmOf = (kitchen: Kitchen, design: Design, layer: number): PlannedFilm => ({
  spec: filmSpecOf(kitchen, design, layer),
  icingId: design.layers[layer]?.icingId ?? "",
});

/** Films as they are usually laid, mm; a lead changes them by the design. Practice, no source. */
export const USUAL_MM: Readonly<Record<Consistency, number>> = {
  outline: 3,
  "top-coat": 2.4,
  flood: 2.5,
  detail: 2,
};
export const CONSISTENCIES = Object.keys(USUAL_MM) as Consistency[];

/** A film of a consistency at its usual thickness, of no icing in particular. */
export const usualFilm = (kitchen: Kitchen, consistency: Consistency): PlannedFilm => ({
  spec: {
    thicknessMm: USUAL_MM[consistency],
    waterPct: waterPctOf(kitchen, "", consistency),
    densityKgM3: kitchen.settings.densityKgM3,
  },
  icingId: "",
});

/** Its own hygrometer, the one a lead chose, or the room's for a heated place. */
const isMeant = ({ id, airFrom, setTempC }: Place, readAtId: string): boolean =>
  readAtId === id || readAtId === airFrom || setTempC !== undefined;

/** What the air of a place does today to a film of each consistency. */
export function placeForecast(
  kitchen: Kitchen,
  place: Place,
  learned: Learned,
  nowMs: number,
  solve: Solve = solveAfresh,
): PlaceForecast {
  const readings = readingsAt(kitchen, place.id);
  const from = readAt(kitchen, place.id);
  const { spells, basis } = airAt(kitchen, place.id, nowMs, nowMs);
  const trouble = airTrouble(readings, nowMs);
  const latest = readings.findLast(({ atMs }) => atMs <= nowMs);
  const air = spells[0]?.air;
  return {
    placeId: place.id,
    basis,
    ...(latest === undefined || air === undefined
      ? {}
      : {
          air: {
            tempC: air.tempC,
            rhPct: air.rhPct,
            atMs: latest.atMs,
            ageMin: Math.floor((nowMs - latest.atMs) / MIN_MS),
          },
        }),
    ...(from === undefined || isMeant(place, from) ? {} : { readAt: from }),
    ...(trouble.silentMin === undefined
      ? trouble.frozen
        ? { trouble: "frozen" }
        : {}
      : { trouble: "silent" }),
    films: CONSISTENCIES.map((consistency) => ({
      consistency,
      thicknessMm: USUAL_MM[consistency],
      ...spansAt(kitchen, place.id, usualFilm(kitchen, consistency), learned, nowMs, solve),
    })),
  };
}
