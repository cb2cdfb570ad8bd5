import { warmed } from "./air.ts";
import { AIR_SPEED_MS } from "./constants.ts";
import {
  answerForecast,
  type ForecastAnswer,
  type ForecastQuery,
  type Minutes,
  QUERY_RANGE,
} from "./query.ts";

/** A change, and what it does. */
export interface Way {
  /** "under a fan" */
  change: string;
  query: ForecastQuery;
  answer: ForecastAnswer;
  /** How much sooner, likeliest to likeliest; missing where as it is that time never comes. */
  skinSoonerMin?: number;
  dryThroughSoonerMin?: number;
}

/** A cabinet that dries icing, and air from a dehumidifier. Practice. */
const CABINET_C = 38;
const DEHUMIDIFIED_PCT = 45;
const THINNER = 0.8;

/** What would dry this film through sooner than `query` does, the soonest first. */
export function waysToHelp(query: ForecastQuery): { asItIs: ForecastAnswer; ways: Way[] } {
  const asItIs = answerForecast(query);
  const ways = changes(query).map((changed): Way => {
    const answer = answerForecast(changed.query);
    const way: Way = { ...changed, answer };
    const skin = soonerMin(asItIs.skin, answer.skin);
    const dryThrough = soonerMin(asItIs.dryThrough, answer.dryThrough);
    if (skin !== undefined) way.skinSoonerMin = skin;
    if (dryThrough !== undefined) way.dryThroughSoonerMin = dryThrough;
    return way;
  });
  const before = likelyMin(asItIs.dryThrough);
  const helping = ways.filter(({ answer }) => likelyMin(answer.dryThrough) < before);
  return {
    asItIs,
    ways: helping.toSorted((a, b) => likelyMin(a.answer.dryThrough) - likelyMin(b.answer.dryThrough)),
  };
}

function changes(query: ForecastQuery): Pick<Way, "change" | "query">[] {
  const cabinet = warmed(query, CABINET_C, AIR_SPEED_MS.fan);
  const thicknessMm = Math.max(query.thicknessMm * THINNER, QUERY_RANGE.thicknessMm.min);
  return [
    { change: "in moving air", query: { ...query, air: "moving" } },
    { change: "under a fan", query: { ...query, air: "fan" } },
    {
      change: `in a ${CABINET_C} °C warm cabinet with a fan`,
      query: { ...query, tempC: CABINET_C, rhPct: cabinet.rhPct, air: "fan" },
    },
    {
      change: `with the air dried to ${DEHUMIDIFIED_PCT} %`,
      query: { ...query, rhPct: Math.min(query.rhPct, DEHUMIDIFIED_PCT) },
    },
    {
      change: `laid a fifth thinner, ${Number(thicknessMm.toFixed(2))} mm`,
      query: { ...query, thicknessMm },
    },
  ];
}

function likelyMin(times: Minutes): number {
  return "never" in times ? Infinity : times.likelyMin;
}

function soonerMin(before: Minutes, after: Minutes): number | undefined {
  if ("never" in before || "never" in after) return undefined;
  return Math.round((before.likelyMin - after.likelyMin) * 10) / 10;
}
