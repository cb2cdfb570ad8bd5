import { TOUCH_SAFE_C, traySafeAfterS } from "../heat/cooling.ts";
import { roomAir } from "./film-air.ts";
import type { Kitchen, ToolState } from "./state.ts";

/** An older reading says nothing of an oven now. */
const READING_GOOD_MS = 30 * 60_000;

/** The hotter of what was last entered for a tool and what its place's hygrometer says; undefined of old or no readings. */
export function hottestRead(
  kitchen: Kitchen,
  tool: ToolState,
  nowMs: number,
): { tempC: number; atMs: number } | undefined {
  const read = tool.placeId === undefined ? undefined : kitchen.readings[tool.placeId]?.at(-1);
  return [tool.lastTemperature, read]
    .filter((one) => one !== undefined && nowMs - one.atMs <= READING_GOOD_MS)
    .reduce((hotter, one) => (hotter === undefined || one!.tempC > hotter.tempC ? one : hotter), undefined);
}

/** The hottest a tray can have got in a place: what it is set to, or was read at; undefined where nothing heats it. */
export function chamberC(kitchen: Kitchen, placeId: string, nowMs: number): number | undefined {
  const setC = kitchen.places[placeId]?.setTempC;
  const tools = Object.values(kitchen.tools).filter((tool) => tool.placeId === placeId);
  const read = tools.map((tool) => hottestRead(kitchen, tool, nowMs)?.tempC);
  return setC === undefined && tools.length === 0 ? undefined : hottestOf(setC, ...read);
}

/** The highest of those that are known. */
export function hottestOf(...temps: readonly (number | undefined)[]): number | undefined {
  const known = temps.filter((tempC) => tempC !== undefined);
  return known.length === 0 ? undefined : Math.max(...known);
}

/** When a tray that leaves heat may be touched again; nothing when it never was too hot. */
export function hotUntil(kitchen: Kitchen, leftAtC: number | undefined, atMs: number): number | undefined {
  if (leftAtC === undefined || leftAtC <= TOUCH_SAFE_C) return undefined;
  // A reading may be of a place hotter than any room a tray cools in.
  const roomC = Math.min(45, Math.max(-10, roomAir(kitchen).tempC));
  const safeAfterS = traySafeAfterS(leftAtC, roomC);
  return safeAfterS > 0 ? Math.round(atMs + safeAfterS * 1000) : undefined;
}
