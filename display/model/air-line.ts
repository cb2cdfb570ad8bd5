import type { ReachedBand } from "#shared/drying/uncertainty/band.ts";
import { mainOutlook } from "#shared/kitchen/forecast/main-outlook.ts";
import { beforeClosing } from "#shared/kitchen/plan/before-closing.ts";
import type { Forecasts, PlaceForecast } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { wordAlert } from "#shared/words/alert-text.ts";
import type { Words } from "#shared/words/words.ts";
import { HOUR_MS } from "#shared/time.ts";

/** The air at the top of the wall, and what it means in this room today. */
export interface AirLine {
  /** "22.4 °C · 58 % RH". */
  air: string;
  place: string;
  /** "A 2.5 mm flood skins in 1–2 h, dries through in 12–18 h". */
  meaning: string;
  /** The reading is old, or none was ever taken. */
  doubt: string | undefined;
}

/** What changed, in two lines, and when it came up. */
export interface ChangeLine {
  atMs: number;
  head: string;
  body: string;
}

/** Two hours before closing: what to lay by when to be dry at opening, and what may stand. */
export function closingLine(
  { plan }: Words,
  kitchen: Kitchen,
  forecasts: Forecasts,
  nowMs: number,
): ChangeLine | undefined {
  const closing = beforeClosing(kitchen, forecasts, nowMs);
  if (closing === undefined) return undefined;
  const { closesMs, floodBy, finishFirst, mayStand } = closing;
  const { layShort, finishShort, title, beside } = plan.closing;
  const [soonest] = floodBy;
  const lay = soonest === undefined ? title(closesMs) : layShort(soonest);
  return {
    atMs: closesMs,
    head: finishFirst.length > 0 ? finishShort(finishFirst) : lay,
    body: beside(closesMs, mayStand.length),
  };
}

/** A change is shown for an hour of kitchen time. */
const SHOWN_FOR_MS = HOUR_MS;

/** The air of the kitchen's main rack. Nothing when no place has an outlook. */
export function airLine(words: Words, kitchen: Kitchen, forecasts: Forecasts): AirLine | undefined {
  const outlook = mainOutlook(kitchen, forecasts);
  const place = outlook && kitchen.places[outlook.placeId];
  if (outlook === undefined || place === undefined) return undefined;
  const { air } = outlook;
  return {
    air: air === undefined ? words.wall.air.none : words.wall.air.reading(air.tempC, air.rhPct),
    place: place.name,
    meaning: meaningOf(words, outlook),
    doubt: doubtOf(words, outlook),
  };
}

function doubtOf({ wall, format }: Words, { air, basis, trouble }: PlaceForecast): string | undefined {
  if (air === undefined || basis === "assumed") return wall.air.assumed;
  if (trouble === "frozen") return wall.air.stuck;
  const isOld = trouble === "silent" || basis === "last known";
  return isOld ? wall.air.lastRead(format.time(air.atMs)) : undefined;
}

function meaningOf({ wall, terms, format }: Words, { films }: PlaceForecast): string {
  const film = films.find(({ consistency }) => consistency === "flood") ?? films[0];
  if (film === undefined) return "";
  const { skin, dryThrough } = film;
  const what = wall.air.film(film.thicknessMm, terms.consistencies[film.consistency]);
  const span = (within: ReachedBand): string => format.bandOf(within);
  if ("never" in skin) return wall.air.never(what, skin.never);
  if ("never" in dryThrough) return wall.air.skinsOnly(what, span(skin), dryThrough.never);
  return wall.air.dries(what, span(skin), span(dryThrough));
}

/** The last change of the air that moved forecasts, for an hour; else a hygrometer that has fallen silent. */
export function changeLine(
  words: Words,
  kitchen: Kitchen,
  { change }: Forecasts,
  nowMs: number,
): ChangeLine | undefined {
  const { wall, alerts, format } = words;
  if (change !== undefined && nowMs - change.atMs < SHOWN_FOR_MS && change.later + change.sooner > 0)
    return {
      atMs: change.atMs,
      head: wall.air.changedSince(alerts.humidityChange(change.rhPctBy), format.time(change.sinceMs)),
      body: wall.air.moved(change.later, change.sooner),
    };
  const [silent] = Object.values(kitchen.alerts)
    .filter(({ kind }) => kind === "sensor-silent")
    .toSorted((a, b) => b.raisedAtMs - a.raisedAtMs);
  if (silent === undefined) return undefined;
  const { subject, act, what, todo } = wordAlert(words, kitchen, silent);
  const head = subject === undefined ? what : alerts.about(subject, what);
  return { atMs: silent.raisedAtMs, head, body: act === what ? todo : `${act}. ${todo}` };
}
