import type { PlaceState } from "#shared/kitchen/model/state.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import { DAY_MS } from "#shared/time.ts";

/** No film dries for longer than this: what a place was set to before is nobody's air any more. */
const SETTINGS_KEPT_MS = 14 * DAY_MS;

/** A place as it is set now, with how it was set before. */
export function placePut(before: PlaceState | undefined, place: Place, atMs: number): PlaceState {
  if (before === undefined) return place;
  const was = (before.was ?? []).filter(({ untilMs }) => atMs - untilMs < SETTINGS_KEPT_MS);
  const { setTempC, airSpeedMs } = before;
  const isSame = setTempC === place.setTempC && airSpeedMs === place.airSpeedMs;
  const setting = { untilMs: atMs, airSpeedMs, ...(setTempC === undefined ? {} : { setTempC }) };
  const settings = isSame ? was : [...was, setting];
  return settings.length === 0 ? place : { ...place, was: settings };
}
