import { type AirSpell, warmed } from "#shared/drying/film/air.ts";
import { AIR_SPEED_MS } from "#shared/drying/film/constants.ts";
import {
  airOf,
  answerForecast,
  type ForecastAnswer,
  type ForecastQuery,
  QUERY_RANGE,
  type SpanMin,
} from "./query.ts";

/** What is changed. */
export type Change =
  | { code: "moving-air" }
  | { code: "fan" }
  /** With a fan. */
  | { code: "warm-cabinet"; tempC: number }
  | { code: "heat-set"; min: number; tempC: number }
  | { code: "dried-air"; rhPct: number }
  /** By a quarter. */
  | { code: "thinner"; thicknessMm: number };

/** A change, and what it does. */
export interface Way {
  change: Change;
  query: ForecastQuery;
  /** Heated for so long before that. */
  heatSetMin?: number;
  answer: ForecastAnswer;
  /** How much sooner, likeliest to likeliest; missing where as it is that time never comes. */
  skinSoonerMin?: number;
  dryThroughSoonerMin?: number;
  /** Whether it is dry through by when it must be. */
  inTime?: InTime;
}

/** Even at its latest; at its likeliest; not even then. */
export type InTime = "surely" | "likely" | "no";

/** What is tried, here and for a kitchen's own trays. Practice, no source. Air is dried to this, % RH. */
export const DRIED_TO_PCT = 45;
/** A film is laid this much thinner. */
export const THINNER = 0.75;
/** A tray is in a low oven for so long, min. */
export const OVEN_MIN = 5;
const OVEN_C = 65.6;
const CABINET_C = 38;

/**
 * What would make this film skin or dry through sooner than `query` does, the soonest dry through first. `withinMin`: when it
 * must be dry through.
 */
export function waysToHelp(
  query: ForecastQuery,
  withinMin?: number,
): { asItIs: ForecastAnswer; inTime?: InTime; ways: Way[] } {
  const asItIs = answerForecast(query);
  const judged = ({ dryThrough }: ForecastAnswer): { inTime?: InTime } =>
    withinMin === undefined ? {} : { inTime: inTimeOf(dryThrough, withinMin) };
  const ways = changes(query).map(({ spells, ...changed }): Way => {
    const answer = answerForecast(changed.query, spells);
    const way: Way = { ...changed, answer, ...judged(answer) };
    const skin = soonerMin(asItIs.skin, answer.skin);
    const dryThrough = soonerMin(asItIs.dryThrough, answer.dryThrough);
    if (skin !== undefined) way.skinSoonerMin = skin;
    if (dryThrough !== undefined) way.dryThroughSoonerMin = dryThrough;
    return way;
  });
  const helping = ways.filter(({ answer }) =>
    (["skin", "dryThrough"] as const).some((time) => likelyMin(answer[time]) < likelyMin(asItIs[time])),
  );
  return {
    asItIs,
    ...judged(asItIs),
    ways: helping.toSorted((a, b) => likelyMin(a.answer.dryThrough) - likelyMin(b.answer.dryThrough)),
  };
}

interface Changed extends Pick<Way, "change" | "query" | "heatSetMin"> {
  spells?: readonly AirSpell[];
}

function changes(query: ForecastQuery): Changed[] {
  const cabinet = warmed(query, CABINET_C, AIR_SPEED_MS.fan);
  const thicknessMm = Math.max(query.thicknessMm * THINNER, QUERY_RANGE.thicknessMm.min);
  return [
    { change: { code: "moving-air" }, query: { ...query, air: "moving" } },
    { change: { code: "fan" }, query: { ...query, air: "fan" } },
    {
      change: { code: "warm-cabinet", tempC: CABINET_C },
      query: { ...query, tempC: CABINET_C, rhPct: cabinet.rhPct, air: "fan" },
    },
    {
      change: { code: "heat-set", min: OVEN_MIN, tempC: OVEN_C },
      query,
      heatSetMin: OVEN_MIN,
      spells: [
        { fromS: 0, air: warmed(airOf(query), OVEN_C, AIR_SPEED_MS.moving) },
        { fromS: 60 * OVEN_MIN, air: airOf(query) },
      ],
    },
    {
      change: { code: "dried-air", rhPct: DRIED_TO_PCT },
      query: { ...query, rhPct: Math.min(query.rhPct, DRIED_TO_PCT) },
    },
    {
      change: { code: "thinner", thicknessMm: Number(thicknessMm.toFixed(2)) },
      query: { ...query, thicknessMm },
    },
  ];
}

function likelyMin(times: SpanMin): number {
  return "never" in times ? Infinity : times.likelyMin;
}

function inTimeOf(dryThrough: SpanMin, withinMin: number): InTime {
  if (likelyMin(dryThrough) > withinMin || "never" in dryThrough) return "no";
  return dryThrough.latestMin <= withinMin ? "surely" : "likely";
}

function soonerMin(before: SpanMin, after: SpanMin): number | undefined {
  if ("never" in before || "never" in after) return undefined;
  return Math.round((before.likelyMin - after.likelyMin) * 10) / 10;
}
