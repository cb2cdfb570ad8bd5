import type { AirSpell, FilmSpec } from "#shared/drying/film/film.ts";
import {
  type AirDoubt,
  type Belief,
  type FilmTimes,
  forecastFilm,
} from "#shared/drying/uncertainty/forecast.ts";
import { beliefFor, type Learned } from "#shared/drying/uncertainty/learning.ts";
import { airTrouble, doubtOf } from "#shared/drying/air-record/readings.ts";
import { type Band, momentsOf, roundedSpan } from "#shared/drying/uncertainty/band.ts";
import { airAt, airOfFilm, filmSpecOf, waterPctOf } from "./air.ts";
import { readAt, readingsAt } from "#shared/kitchen/tray/place-readings.ts";
import { given, knownOf } from "./clues.ts";
import type { FilmForecast, PlaceForecast } from "#shared/kitchen/model/forecast.ts";
import {
  type Film,
  filmKey,
  inHandOf,
  type Kitchen,
  type Placement,
  standsAt,
  type Tray,
} from "#shared/kitchen/model/state.ts";
import type { Consistency, Design, Place } from "#shared/kitchen/model/vocabulary.ts";
import { MIN_MS, SECOND_MS } from "#shared/time.ts";

/** Everything the drying model is asked with. */
export interface FilmQuestion {
  spec: FilmSpec;
  spells: readonly AirSpell[];
  belief: Belief;
  doubt: AirDoubt;
  doubtFromS: number;
}

/** Answers a question of the drying model; the key says whose film it is, for an answer kept. */
export type Solve = (key: string, question: FilmQuestion) => FilmTimes;

/** Asks the model each time. */
export const solveAfresh: Solve = (_, { spec, spells, ...options }) => forecastFilm(spec, spells, options);

/** Where a tray dries when nothing is done to it: under heat, where it goes back to. */
export const dryingPlaceOf = (tray: Tray): Placement =>
  tray.status.stage === "heat-set" ? tray.status.returnTo : standsAt(tray);

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
  const film = filmOf(tray, layer);
  if (design === undefined || own === undefined || film === undefined) return undefined;
  const [skin, dryThrough] = [knownOf(film, "skin"), knownOf(film, "dryThrough")];
  const { basis, ...air } = airOfFilm(kitchen, afterHeat(tray, nowMs), film, nowMs);
  const isKnown =
    skin !== undefined && "reachedS" in skin && dryThrough !== undefined && "reachedS" in dryThrough;
  const found = { earliestMs: 0, likelyMs: 0, latestMs: 0 };
  const belief = beliefFor(learned, own.icingId, dryingPlaceOf(tray).placeId);
  const forecast = isKnown
    ? { skin: found, dryThrough: found }
    : solve(filmKey(tray.id, layer), {
        ...air,
        spec: filmSpecOf(kitchen, design, layer),
        belief,
      });
  return {
    skin: momentsOf(given(forecast.skin, skin), film.clockStartMs),
    dryThrough: momentsOf(given(forecast.dryThrough, dryThrough), film.clockStartMs),
    basis,
    skinFactor: belief.skin,
  };
}

/** A layer's film, be it laid or in hand. */
export const filmOf = (tray: Tray, layer: number): Film | undefined =>
  tray.films.find((film) => film.layer === layer) ?? filmInHand(tray, layer);

function filmInHand(tray: Tray, layer: number): Film | undefined {
  const hand = inHandOf(tray);
  if (hand === undefined || hand.layer !== layer) return undefined;
  const { startedAtMs } = hand;
  return {
    layer,
    actId: "",
    floodingFromMs: startedAtMs,
    clockStartMs: startedAtMs,
    by: "kitchen",
    findings: [],
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
  const { skin, dryThrough } = solve(plannedKey(placeId, film), {
    spec,
    spells: airAt(kitchen, placeId, nowMs, nowMs).spells,
    belief: beliefFor(learned, icingId, placeId),
    doubt: doubtOf(readingsAt(kitchen, placeId), nowMs),
    doubtFromS: 0,
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
