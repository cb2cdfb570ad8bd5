import type { HeatLimitsFact } from "#shared/kitchen/model/event.ts";

/** What a heat tool is doing. */
export type ToolFact = (
  | { use: "on"; onMin: number; holder: string | undefined }
  | { use: "cooling"; leftMin: number }
  | { use: "off" }
) & { outOfService?: string };

/** When to check by touch, in whole seconds as a clock shows them. */
export interface TouchTimes {
  fromS: number;
  toS: number;
}

export const touchTimes = ({ checkFromS, checkToS, stopByS }: HeatLimitsFact): TouchTimes => ({
  fromS: Math.floor(checkFromS),
  toS: Math.floor(Math.min(checkToS, stopByS)),
});

/** The one of four ways in which a time to check is told. */
export function fallIn(
  { fromS, toS }: TouchTimes,
  ways: {
    already: string;
    by: (toS: number) => string;
    at: (s: number) => string;
    between: (fromS: number, toS: number) => string;
  },
): string {
  if (toS < 1) return ways.already;
  if (fromS < 1) return ways.by(toS);
  return fromS === toS ? ways.at(toS) : ways.between(fromS, toS);
}
