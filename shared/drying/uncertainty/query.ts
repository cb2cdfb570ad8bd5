import * as v from "valibot";
import { decimalOf } from "#shared/decimal.ts";
import { type BadField, between, must, parse } from "#shared/fields.ts";
import type { Outcome } from "#shared/outcome.ts";
import type { Air, AirSpell } from "#shared/drying/film/air.ts";
import { AIR_SPEED_MS } from "#shared/drying/film/constants.ts";
import { forecastFilm } from "./forecast.ts";
import { doubtOf } from "#shared/drying/air-record/readings.ts";
import type { WhyNever } from "#shared/drying/film/film.ts";
import type { Times } from "#shared/drying/film/run.ts";
import { MIN_MS } from "#shared/time.ts";
import type { Band } from "./band.ts";
import { WATER_SD_PCT, waterSlopes } from "./water.ts";

/** What a query may ask, as HTTP and the command line take it: numbers, or decimal text. */
export const QUERY_RANGE = {
  tempC: { min: -5, max: 120, unit: "°C" },
  rhPct: { min: 0, max: 100, unit: "% humidity" },
  speedMs: { min: 0, max: 10, unit: "m/s" },
  thicknessMm: { min: 0.2, max: 12, unit: "mm" },
  waterPct: { min: 8, max: 35, unit: "% water" },
} as const;

const decimal = v.pipe(v.string(), v.transform(decimalOf), v.number());

const figure = (name: keyof typeof QUERY_RANGE) => {
  const { min, max, unit } = QUERY_RANGE[name];
  return v.pipe(
    v.union([v.number(), decimal], must({ is: "between", min, max, unit })),
    between(min, max, unit),
  );
};

const AIR_WORDS = ["still", "moving", "fan"] as const;
const { min: slowest, max: fastest, unit } = QUERY_RANGE.speedMs;
const AIR_MUST = must({ is: "air", words: AIR_WORDS, min: slowest, max: fastest, unit });
const speed = v.pipe(
  v.union([v.number(), decimal]),
  v.minValue(slowest, AIR_MUST),
  v.maxValue(fastest, AIR_MUST),
);
const air = v.union([v.picklist(AIR_WORDS), speed], AIR_MUST);

export const forecastQuery = v.object({
  tempC: figure("tempC"),
  rhPct: figure("rhPct"),
  air,
  thicknessMm: figure("thicknessMm"),
  waterPct: figure("waterPct"),
});
export type ForecastQuery = v.InferOutput<typeof forecastQuery>;

/** A query from outside, or the first field that is wrong and what it must be. */
export const parseForecastQuery = (input: object): Outcome<ForecastQuery, BadField> =>
  parse(forecastQuery, input);

/** From laying, minutes to a tenth, as programs are answered: earliest, likeliest and latest, or why the time never comes. */
export type SpanMin =
  | { earliestMin: number; likelyMin: number; latestMin: number; latestOrMore?: true }
  | { never: WhyNever };

export interface ForecastAnswer {
  skin: SpanMin;
  dryThrough: SpanMin;
}

function inMinutes(band: Band): SpanMin {
  if ("never" in band) return band;
  const { earliestMs, likelyMs, latestMs, ...more } = band;
  const minutes = (ms: number): number => Math.round((10 * ms) / MIN_MS) / 10;
  return {
    earliestMin: minutes(earliestMs),
    likelyMin: minutes(likelyMs),
    latestMin: minutes(latestMs),
    ...more,
  };
}

/**
 * Forecast of a film laid now in this air (or in these, one after the other), by a kitchen that has taught nothing yet; the
 * air as well known as if typed in.
 */
export function answerForecast(
  query: ForecastQuery,
  spells: readonly AirSpell[] = [{ fromS: 0, air: airOf(query) }],
): ForecastAnswer {
  const { tempC, rhPct } = query;
  const doubt = doubtOf([{ atMs: 0, tempC, rhPct, source: "typed" }], 0);
  // Laid in the room, whatever it is warmed or dried to then.
  const { skin, dryThrough } = forecastFilm({ ...query, roomC: query.tempC }, spells, {
    doubt,
    waterSdPct: WATER_SD_PCT,
  });
  return { skin: inMinutes(skin), dryThrough: inMinutes(dryThrough) };
}

/** By how much each time grows a point of water, in ln, in this air; to a thousandth. */
export function lnPerWaterPct(query: ForecastQuery): Times {
  const { skin, dryThrough } = waterSlopes(query, airOf(query));
  return { skin: Number(skin.toFixed(3)), dryThrough: Number(dryThrough.toFixed(3)) };
}

export function airOf({ tempC, rhPct, air }: ForecastQuery): Air {
  return { tempC, rhPct, speedMs: typeof air === "number" ? air : AIR_SPEED_MS[air] };
}
