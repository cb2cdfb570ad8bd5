import { tzOffset } from "@date-fns/tz";
import type { Settings } from "./vocabulary.ts";

const MIN_MS = 60_000;
const DAY_MIN = 1440;

/** When the kitchen opened today, if it is open now. */
export function openSinceMs(
  settings: Pick<Settings, "timeZone" | "opening">,
  nowMs: number,
): number | undefined {
  const localMin = Math.floor(nowMs / MIN_MS) + tzOffset(settings.timeZone, new Date(nowMs));
  // Day 0 of the epoch was a Thursday; the week here begins on Monday.
  const weekday = (Math.floor(localMin / DAY_MIN) + 3) % 7;
  const ofDay = localMin % DAY_MIN;
  const hours = settings.opening[weekday];
  if (hours === null || hours === undefined || ofDay < hours.fromMin || ofDay >= hours.toMin)
    return undefined;
  return (Math.floor(nowMs / MIN_MS) - (ofDay - hours.fromMin)) * MIN_MS;
}
