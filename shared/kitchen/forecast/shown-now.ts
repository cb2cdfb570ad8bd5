import type { Band } from "#shared/drying/uncertainty/band.ts";
import type { Shown } from "#shared/kitchen/model/event.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { filmKey } from "#shared/kitchen/model/lookups.ts";
import type { Film, Tray } from "#shared/kitchen/model/state.ts";
import { MIN_MS } from "#shared/time.ts";

/** The forecast that stood on the screens when a film was touched, as minutes from its clock's start. */
export function shownNow(forecasts: Forecasts, tray: Tray, film: Film): Shown {
  const outlook = forecasts.films[filmKey(tray.id, film.layer)];
  const skin = shownBand(outlook?.skin, film);
  const dryThrough = shownBand(outlook?.dryThrough, film);
  return { ...(skin === undefined ? {} : { skin }), ...(dryThrough === undefined ? {} : { dryThrough }) };
}

function shownBand(band: Band | undefined, film: Film): Shown["skin"] {
  if (band === undefined || "never" in band) return undefined;
  const minutes = (atMs: number): number => (atMs - film.clockStartMs) / MIN_MS;
  return {
    earliestMin: minutes(band.earliestMs),
    likelyMin: minutes(band.likelyMs),
    latestMin: minutes(band.latestMs),
  };
}
