import { cookiesSet, cookieUnder, hotAirHeats } from "#shared/kitchen/model/lookups.ts";
import type { Film, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { MIN_MS } from "#shared/time.ts";

/** What became of a section that might sink. */
export type Setting = "in time" | "late" | "not set";

/** Until when a film's small sections are to be heat-set; undefined where none may sink, or they had their heat or a finger. */
export function setByMs(tray: Tray, film: Film): number | undefined {
  if (film.setWithinMin === undefined || film.findings.length > 0 || firstHeatMs(tray, film) !== undefined)
    return undefined;
  return film.clockStartMs + film.setWithinMin * MIN_MS;
}

/** While a tray is being flooded: until when its first cookie, or the first since the last heat, is to be heat-set. */
export function firstSetByMs({ status, heats }: Tray, setWithinMin: number | undefined): number | undefined {
  if (status.stage !== "flooding" || setWithinMin === undefined) return undefined;
  const heated = heats.filter(({ layer }) => layer === status.layer).map(({ endedAtMs }) => endedAtMs);
  return Math.max(status.startedAtMs, ...heated) + setWithinMin * MIN_MS;
}

/** How many cookies of a layer hot air has set, while others still wait for it: undefined before the first and after the last. */
export function partlySet(tray: Tray, layer: number): number | undefined {
  const { status, heats, count } = tray;
  const isUnder =
    status.stage === "heat-set" && status.heat.layer === layer && status.heat.toolKind === "hot-air";
  const set = isUnder ? cookieUnder(tray, status.heat) - 1 : cookiesSet(hotAirHeats(heats, layer));
  return set > 0 && set < count ? set : undefined;
}

/** Until when the cookies that hot air has not set yet are to be heat-set, once the whole layer is laid. */
export function restSetByMs(tray: Tray, film: Film): number | undefined {
  if (film.setWithinMin === undefined || film.findings.length > 0) return undefined;
  return partlySet(tray, film.layer) === undefined
    ? undefined
    : film.clockStartMs + film.setWithinMin * MIN_MS;
}

/** Heat counts from its start, also while the rest of the tray was still being flooded. */
function firstHeatMs(tray: Tray, film: Film): number | undefined {
  const starts = tray.heats.filter(({ layer }) => layer === film.layer).map(({ startedAtMs }) => startedAtMs);
  const { status } = tray;
  if (status.stage === "heat-set" && status.heat.layer === film.layer) starts.push(status.heat.startedAtMs);
  return starts.length === 0 ? undefined : Math.min(...starts);
}

export interface SinkingRecord {
  films: Readonly<Record<Setting, number>>;
  /** Films on trays with cookies reported sunk. */
  sunk: Readonly<Record<Setting, number>>;
}

/** How films with sections that might sink fared on the trays of the board: heat-set in time, late or not, and sunk or not. */
export function sinkingRecord(kitchen: Kitchen, nowMs: number): SinkingRecord {
  const films = { "in time": 0, late: 0, "not set": 0 };
  const sunk = { "in time": 0, late: 0, "not set": 0 };
  for (const tray of Object.values(kitchen.trays)) {
    const isSunk = tray.problems.some(({ problem }) => problem === "sunk");
    for (const film of tray.films) {
      const setting = settingOf(tray, film, nowMs);
      if (setting === undefined) continue;
      films[setting] += 1;
      if (isSunk) sunk[setting] += 1;
    }
  }
  return { films, sunk };
}

/** Undefined where nothing of it may sink, or its minutes are not over. */
export function settingOf(tray: Tray, film: Film, nowMs: number): Setting | undefined {
  if (film.setWithinMin === undefined) return undefined;
  const dueMs = film.clockStartMs + film.setWithinMin * MIN_MS;
  const heatMs = firstHeatMs(tray, film);
  if (heatMs !== undefined && heatMs < film.clockStartMs)
    // Heat while the rest was still being flooded: its first cookie's minutes count.
    return heatMs - film.floodingFromMs <= film.setWithinMin * MIN_MS ? "in time" : "late";
  if (heatMs !== undefined) return heatMs <= dueMs ? "in time" : "late";
  return nowMs > dueMs ? "not set" : undefined;
}
