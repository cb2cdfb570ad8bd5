import { mainOutlook } from "#shared/kitchen/forecast/main-outlook.ts";
import { formatBand, formatLength, formatTemp } from "#shared/units.ts";
import type { Span } from "#shared/drying/uncertainty/span.ts";
import type { Forecasts, PlaceOutlook } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Settings } from "#shared/kitchen/model/vocabulary.ts";
import { clockTime, humidityWords, sentence } from "#shared/words/wording.ts";
import { HOUR_MS } from "#shared/time.ts";

/** The air at the top of the wall, and what it means in this room today. */
export interface AirLine {
  /** "22.4 °C · 58 % RH". */
  air: string;
  place: string;
  /** "A 2.5 mm flood skins in 1–2 h, dries through in 12–18 h". */
  meaning: string;
  /** The reading is old, or none was ever taken. */
  doubt?: string;
}

/** What changed, in two lines, and when it came up. */
export interface ChangeLine {
  atMs: number;
  head: string;
  body: string;
}

/** A change is told for an hour of kitchen time. */
const TOLD_FOR_MS = HOUR_MS;

/**
 * The air of the kitchen's main rack: of the places whose air is read, racks before others, the one that holds most.
 * Nothing when no place has an outlook.
 */
export function airLine(kitchen: Kitchen, forecasts: Forecasts): AirLine | undefined {
  const outlook = mainOutlook(kitchen, forecasts);
  const place = outlook === undefined ? undefined : kitchen.places[outlook.placeId];
  if (outlook === undefined || place === undefined) return undefined;
  const { settings } = kitchen;
  const { air } = outlook;
  const doubt = doubtWords(outlook, settings);
  return {
    air:
      air === undefined
        ? "No air reading"
        : `${formatTemp(air.tempC, settings.units)} · ${Math.round(air.rhPct)} % RH`,
    place: place.name,
    meaning: meaningOf(outlook, settings),
    ...(doubt === undefined ? {} : { doubt }),
  };
}

function doubtWords({ air, basis, trouble }: PlaceOutlook, settings: Settings): string | undefined {
  if (air === undefined || basis === "assumed") return "assumed: no hygrometer read";
  if (trouble === "frozen") return "hygrometer stuck: times are wider";
  if (trouble === "silent" || basis === "last known") {
    return `last read ${clockTime(air.atMs, settings.timeZone)}: times are wider`;
  }
  return undefined;
}

function meaningOf(outlook: PlaceOutlook, settings: Settings): string {
  const film = outlook.films.find(({ consistency }) => consistency === "flood") ?? outlook.films[0];
  if (film === undefined) return "";
  const { skin, dryThrough } = film;
  const what = `A ${formatLength(film.thicknessMm, settings.units)} ${film.consistency}`;
  if ("never" in skin) return `${what} will not skin: ${skin.never}`;
  return `${what} skins in ${span(skin)}, ${"never" in dryThrough ? `will not dry through: ${dryThrough.never}` : `dries through in ${span(dryThrough)}`}`;
}

const span = ({ earliestMin, latestMin }: Exclude<Span, { never: string }>): string =>
  formatBand(earliestMin, latestMin);

/** The last change of the air that moved forecasts, for an hour; else a hygrometer that has fallen silent. */
export function changeLine(kitchen: Kitchen, forecasts: Forecasts, nowMs: number): ChangeLine | undefined {
  const { change } = forecasts;
  if (change !== undefined && nowMs - change.atMs < TOLD_FOR_MS && change.later + change.sooner > 0) {
    const since = clockTime(change.sinceMs, kitchen.settings.timeZone);
    return {
      atMs: change.atMs,
      head: `${sentence(humidityWords(change.rhPctBy) ?? "the air has changed")} since ${since}`,
      body: movedWords(change.later, change.sooner),
    };
  }
  const silent = Object.values(kitchen.alerts)
    .filter(({ kind }) => kind === "sensor-silent")
    .toSorted((a, b) => b.raisedAtMs - a.raisedAtMs)[0];
  return silent === undefined ? undefined : { atMs: silent.raisedAtMs, head: silent.what, body: silent.todo };
}

function movedWords(later: number, sooner: number): string {
  const trays = (count: number): string => `${count} ${count === 1 ? "tray" : "trays"}`;
  if (later === 0) return `${trays(sooner)} ready sooner than first shown`;
  if (sooner === 0) return `${trays(later)} ready later than first shown`;
  return `${trays(later)} ready later, ${sooner} sooner than first shown`;
}
