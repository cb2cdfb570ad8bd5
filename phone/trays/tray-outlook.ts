import { firstSetByMs, partlySet, restSetByMs, setByMs } from "#shared/kitchen/tray/sinking.ts";
import { isReached } from "#shared/kitchen/model/forecast.ts";
import type { Forecasts, ReachedBand, SinkAdvice, TrayOutlook } from "#shared/kitchen/model/forecast.ts";
import { dryingPlaceOf } from "#shared/kitchen/forecast/films.ts";
import { foundAt, nextAct, readiness } from "#shared/kitchen/tray/route.ts";
import { filmKey } from "#shared/kitchen/model/state.ts";
import type { Film, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Layer } from "#shared/kitchen/model/vocabulary.ts";
import { clockTime, cookies, sentence } from "#shared/words/wording.ts";
import { formatLength, formatSpan } from "#shared/units.ts";
import { sayWhen } from "#phone/ui/when.ts";
import { MIN_MS } from "#shared/time.ts";

/** What a tray's screen says of the time to come. */
export interface TrayTimes {
  /** What the band is of: "ready", "skin", "dry". */
  what: string;
  lane: "skin" | "dry";
  band?: ReachedBand;
  /** Why there is no band. */
  never?: string;
  note?: string;
}

/** The band a hand needs now: when the wait ends; or, with a layer in hand or next, when its skin would come. */
export function trayTimes(
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): TrayTimes | undefined {
  const state = readiness(kitchen, forecasts, tray, nowMs);
  const packs = nextAct(kitchen, tray).kind === "pack";
  const lane = packs ? "dry" : "skin";
  const air = airNote(kitchen, forecasts, tray, nowMs);
  if (state.is === "coming")
    return {
      what: packs ? "dry" : "ready",
      lane,
      band: state.band,
      ...(air === undefined ? {} : { note: air }),
    };
  if (state.is === "never") return { what: "ready", lane, never: state.why };
  const { standing } = tray;
  if (standing.stage === "flooding") {
    const skin = forecasts.films[filmKey(tray.id, standing.layer)]?.skin;
    if (isReached(skin))
      return { what: "skin", lane: "skin", band: skin, ...(air === undefined ? {} : { note: air }) };
  }
  const span = nextOutlook(forecasts, tray)?.skin;
  if (packs || span === undefined || standing.stage === "heat-set") return undefined;
  if ("never" in span) return { what: "skin", lane: "skin", never: span.never };
  const after = (minutes: number): number => nowMs + minutes * MIN_MS;
  return {
    what: "skin",
    lane: "skin",
    band: {
      earliestMs: after(span.earliestMin),
      likelyMs: after(span.likelyMin),
      latestMs: after(span.latestMin),
    },
    note: air === undefined ? "if laid now" : `if laid now; ${air}`,
  };
}

/** What is forecast for the layer in hand or next; nothing when the forecast is of a layer laid since. */
export function nextOutlook(forecasts: Forecasts, { id, standing, films }: Tray): TrayOutlook["next"] {
  const next = forecasts.trays[id]?.next;
  const layer = standing.stage === "flooding" ? standing.layer : films.length;
  return next?.layer === layer ? next : undefined;
}

/** Why times are less sure here: nothing is read, or not lately. */
export function airNote(
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): string | undefined {
  const outlook = forecasts.places[dryingPlaceOf(tray).placeId];
  if (outlook === undefined) return undefined;
  const { air, basis, trouble, readAt } = outlook;
  if (basis === "assumed" || air === undefined) return "no reading of the air here: times are less sure";
  if (trouble === "frozen") return "the hygrometer here seems stuck: times are less sure";
  if (basis === "last known" || trouble === "silent")
    return `no reading since ${sayWhen(air.atMs, kitchen.settings.timeZone, nowMs)}: times are less sure`;
  const elsewhere = kitchen.places[readAt ?? ""];
  return elsewhere === undefined ? undefined : `no reading here lately: air as at ${elsewhere.name}`;
}

/** Past the latest time with no touch: a fingertip decides. */
export function touchNote(
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): string | undefined {
  const state = readiness(kitchen, forecasts, tray, nowMs);
  if (state.is !== "check by touch") return undefined;
  return `Check by touch: past its latest time, ${sayWhen(state.sinceMs, kitchen.settings.timeZone, nowMs)}`;
}

/** "butter, flood, smallest section 12 mm". */
export function layerWords(kitchen: Kitchen, layer: Layer): string {
  const icing = kitchen.icings[layer.icingId]?.name ?? "icing";
  return `${icing}, ${layer.consistency}, smallest section ${formatLength(layer.narrowestMm, kitchen.settings.units)}`;
}

/** What to do about a section that may sink. */
export function sinkWords(
  { risk, setWithinMin, floodBeforeSetting, floodBeforeOven = 0 }: SinkAdvice,
  count: number,
): string {
  const likely = risk === "most" ? "Likely to sink in the middle" : "May sink in the middle";
  const batch =
    floodBeforeSetting < count ? `: flood ${cookies(floodBeforeSetting)}, then heat-set, each` : ": heat-set";
  const oven =
    floodBeforeOven <= floodBeforeSetting
      ? ""
      : `; for an oven flood ${floodBeforeOven < count ? cookies(floodBeforeOven) : "the whole tray"} first`;
  return `${likely}${batch} within ${formatSpan(setWithinMin)} of flooding${oven}`;
}

/** How many cookies hot air has set, and the minutes left to heat-set what may sink: counted down, then said to be over. */
export function setByNote(
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): string | undefined {
  const { standing, count } = tray;
  if (standing.stage === "packed") return undefined;
  const film = tray.films.at(-1);
  const layer = layerInHand(tray) ?? film?.layer ?? 0;
  const isLaid = film?.layer === layer;
  // A finger that found the tray set overrules what was counted.
  const set = isLaid && foundAt(film, "skin") !== undefined ? undefined : partlySet(tray, layer);
  const dueMs = setDueMs(forecasts, tray, isLaid ? film : undefined, set);
  const toHeat = (what: string): string | undefined => heatBy(kitchen, what, dueMs, nowMs);
  if (set !== undefined) {
    const how = toHeat(isLaid ? "the rest" : "the next");
    const soFar = `${isLaid ? `Layer ${layer + 1}: ` : ""}${set} of ${count} set`;
    return how === undefined ? soFar : `${soFar}. ${sentence(how)}`;
  }
  const how = toHeat(isLaid ? "it" : "the first cookie");
  if (how === undefined) return undefined;
  return isLaid ? `Layer ${layer + 1} may sink: ${how}` : sentence(how);
}

/** The layer that hands or a tool are at. */
function layerInHand({ standing }: Tray): number | undefined {
  if (standing.stage === "flooding") return standing.layer;
  return standing.stage === "heat-set" ? standing.heat.layer : undefined;
}

/** Until when what may sink is to be heat-set, of the layer laid last, else of the one in hand. */
function setDueMs(
  forecasts: Forecasts,
  tray: Tray,
  laid: Film | undefined,
  set: number | undefined,
): number | undefined {
  if (laid === undefined) return firstSetByMs(tray, nextOutlook(forecasts, tray)?.sink?.setWithinMin);
  return set === undefined ? setByMs(tray, laid) : restSetByMs(tray, laid);
}

/** Said to be over for half an hour. */
const OVER_MIN = 30;

/** "heat-set the rest by 14:20, 5 min left"; nothing once that is long over. */
function heatBy(kitchen: Kitchen, what: string, byMs: number | undefined, nowMs: number): string | undefined {
  if (byMs === undefined) return undefined;
  const left = (byMs - nowMs) / MIN_MS;
  if (left > 0)
    return `heat-set ${what} by ${clockTime(byMs, kitchen.settings.timeZone)}, ${formatSpan(left)} left`;
  return left > -OVER_MIN ? `the minutes to heat-set ${what} are over. Watch the middle` : undefined;
}
