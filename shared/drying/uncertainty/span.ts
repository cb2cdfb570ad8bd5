import { HORIZON_S } from "#shared/drying/film/constants.ts";
import type { WhyNever } from "#shared/drying/film/film.ts";
import type { Quantiles } from "./forecast.ts";

/** From a clock's start, minutes to a tenth: 10th, 50th and 90th percentile, or why the time never comes. */
export type Span =
  | {
      earliestMin: number;
      likelyMin: number;
      latestMin: number;
      /** The latest is that far off or farther: forecasts look no farther ahead. */
      latestOrMore?: true;
    }
  | { never: WhyNever };

export function toSpan(quantiles: Quantiles): Span {
  if ("never" in quantiles) return quantiles;
  const minutes = (s: number): number => Math.round(s / 6) / 10;
  return {
    earliestMin: minutes(quantiles.earliestS),
    likelyMin: minutes(quantiles.likelyS),
    latestMin: minutes(quantiles.latestS),
    ...(quantiles.latestS < HORIZON_S ? {} : { latestOrMore: true as const }),
  };
}
