import { type ReachedBand, isReached } from "#shared/drying/uncertainty/band.ts";
import type { WhyNever } from "#shared/drying/film/film.ts";
import { firstSetByMs, partlySet, restSetByMs, setByMs } from "#shared/kitchen/tray/sinking.ts";
import type { Forecasts, TrayForecast } from "#shared/kitchen/model/forecast.ts";
import { dryingPlaceOf } from "#shared/kitchen/model/lookups.ts";
import { foundAt, nextAct, readiness } from "#shared/kitchen/tray/route.ts";
import { filmKey } from "#shared/kitchen/model/lookups.ts";
import type { Film, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { FirstWords } from "#shared/words/words.ts";
import { MIN_MS } from "#shared/time.ts";

/** What a tray's screen says of the time to come. */
export interface TrayTimes {
  /** What the band is of: "ready", "skin", "dry". */
  what: "ready" | "skin" | "dry";
  lane: "skin" | "dry";
  band?: ReachedBand;
  /** Why there is no band. */
  never?: WhyNever;
  note?: string;
}

/** The band a hand needs now: when the wait ends; or, with a layer in hand or next, when its skin would come. */
export function trayTimes(
  words: FirstWords,
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): TrayTimes | undefined {
  const state = readiness(kitchen, forecasts, tray, nowMs);
  const packs = nextAct(kitchen, tray).kind === "pack";
  const lane = packs ? "dry" : "skin";
  const air = airNote(words, kitchen, forecasts, tray, nowMs);
  if (state.is === "coming")
    return {
      what: packs ? "dry" : "ready",
      lane,
      band: state.band,
      ...(air === undefined ? {} : { note: air }),
    };
  if (state.is === "never") return { what: "ready", lane, never: state.why };
  const { status } = tray;
  if (status.stage === "flooding") {
    const skin = forecasts.films[filmKey(tray.id, status.layer)]?.skin;
    if (isReached(skin))
      return { what: "skin", lane: "skin", band: skin, ...(air === undefined ? {} : { note: air }) };
  }
  const span = nextOutlook(forecasts, tray)?.skin;
  if (packs || span === undefined || status.stage === "heat-set") return undefined;
  if ("never" in span) return { what: "skin", lane: "skin", never: span.never };
  return {
    what: "skin",
    lane: "skin",
    band: {
      earliestMs: nowMs + span.earliestMs,
      likelyMs: nowMs + span.likelyMs,
      latestMs: nowMs + span.latestMs,
    },
    note: air === undefined ? words.trays.ifLaidNow : `${words.trays.ifLaidNow}; ${air}`,
  };
}

/** What is forecast for the layer in hand or next; nothing when the forecast is of a layer laid since. */
export function nextOutlook(forecasts: Forecasts, { id, status, films }: Tray): TrayForecast["next"] {
  const next = forecasts.trays[id]?.next;
  const layer = status.stage === "flooding" ? status.layer : films.length;
  return next?.layer === layer ? next : undefined;
}

/** Why times are less sure here: nothing is read, or not lately. */
export function airNote(
  { trays, format }: FirstWords,
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): string | undefined {
  const outlook = forecasts.places[dryingPlaceOf(tray).placeId];
  if (outlook === undefined) return undefined;
  const { air, basis, trouble, readAt } = outlook;
  if (basis === "assumed" || air === undefined) return trays.noAir;
  if (trouble === "frozen") return trays.stuckAir;
  if (basis === "last known" || trouble === "silent") return trays.oldAir(format.when(air.atMs, nowMs));
  const elsewhere = kitchen.places[readAt ?? ""];
  return elsewhere === undefined ? undefined : trays.airElsewhere(elsewhere.name);
}

/** Past the latest time with no touch: a fingertip decides. */
export function touchNote(
  { trays, format }: FirstWords,
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): string | undefined {
  const state = readiness(kitchen, forecasts, tray, nowMs);
  if (state.is !== "check by touch") return undefined;
  return trays.touchPast(format.when(state.sinceMs, nowMs));
}

/** How many cookies hot air has set, and the minutes left to heat-set what may sink: counted down, then said to be over. */
export function setByNote(
  { trays }: FirstWords,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): string | undefined {
  const { status, count } = tray;
  if (status.stage === "packed") return undefined;
  const film = tray.films.at(-1);
  const layer = layerInHand(tray) ?? film?.layer ?? 0;
  const isLaid = film?.layer === layer;
  // A finger that found the tray set overrules what was counted.
  const set = isLaid && foundAt(film, "skin") !== undefined ? undefined : partlySet(tray, layer);
  const dueMs = setDueMs(forecasts, tray, isLaid ? film : undefined, set);
  const leftMin = dueMs === undefined ? undefined : (dueMs - nowMs) / MIN_MS;
  const isSaid = leftMin !== undefined && leftMin > -OVER_MIN;
  const said = trays.setBy({ layer, set, count, isLaid, ...(isSaid && { dueMs, leftMin }) });
  return said === "" ? undefined : said;
}

/** The layer that hands or a tool are at. */
function layerInHand({ status }: Tray): number | undefined {
  if (status.stage === "flooding") return status.layer;
  return status.stage === "heat-set" ? status.heat.layer : undefined;
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
