import type { OrderForecast } from "#shared/kitchen/model/forecast.ts";

/** How an order's time lies before its pick-up, or past it: minutes from the least to the most, never without their range. */
export type TimeLeft =
  | { code: "never" | "no-forecast" }
  | { code: "late" | "spare"; leastMin: number; mostMin: number }
  /** Likely in time, and at the latest finish so late. */
  | { code: "may-be-late"; mostMin: number };

/** Spare at the likeliest finish, and at the latest. */
export function timeLeftOf(outlook: OrderForecast | undefined): TimeLeft {
  if (outlook !== undefined && "never" in outlook.finish) return { code: "never" };
  if (outlook?.spareMin === undefined) return { code: "no-forecast" };
  const { spareMin } = outlook;
  const worstMin = Math.min(spareMin, outlook.spareWorstMin ?? spareMin);
  if (spareMin < 0) return { code: "late", leastMin: -spareMin, mostMin: -worstMin };
  if (worstMin < 0) return { code: "may-be-late", mostMin: -worstMin };
  return { code: "spare", leastMin: worstMin, mostMin: spareMin };
}
