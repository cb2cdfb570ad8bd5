import { dayAndMinute } from "./clock-words.ts";
import type { Settings } from "./vocabulary.ts";

const MIN_MS = 60_000;

/** When the kitchen opened today, if it is open now. */
export function openSinceMs(
  settings: Pick<Settings, "timeZone" | "opening">,
  nowMs: number,
): number | undefined {
  const { day, minute } = dayAndMinute(nowMs, settings.timeZone);
  const hours = settings.opening[day];
  if (hours === null || hours === undefined || minute < hours.fromMin || minute >= hours.toMin)
    return undefined;
  return (Math.floor(nowMs / MIN_MS) - (minute - hours.fromMin)) * MIN_MS;
}
