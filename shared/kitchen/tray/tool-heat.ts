import { TOUCH_SAFE_C, traySafeAfterS } from "#shared/heat/cooling.ts";
import { roomAir } from "./place-readings.ts";
import { chamberOf, standsAt, warmersOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, ToolState, Tray } from "#shared/kitchen/model/state.ts";
import { MIN_MS } from "#shared/time.ts";

/** What a tool was read at. */
interface ToolReading {
  tempC: number;
  atMs: number;
}

/** An older reading says nothing of an oven now. */
export const READING_GOOD_MS = 30 * MIN_MS;

/** What was last entered for a tool, and what its place's hygrometer last said. */
function readsOf(kitchen: Kitchen, tool: ToolState): ToolReading[] {
  const inPlace = kitchen.readings[chamberOf(tool) ?? ""]?.at(-1);
  return [tool.lastTemperature, inPlace].filter((read) => read !== undefined);
}

/** Too hot by this reading, but within its limit by a later one, whichever way that came. */
const isAnswered = (read: ToolReading, { maxAirC }: ToolState, reads: readonly ToolReading[]): boolean =>
  read.tempC > maxAirC && reads.some(({ atMs, tempC }) => atMs > read.atMs && tempC <= maxAirC);

/** What still says something of a tool: one above its limit grows old only by a later one within it, or once it was said off. */
function lastingReads(kitchen: Kitchen, tool: ToolState, nowMs: number): ToolReading[] {
  const reads = readsOf(kitchen, tool);
  const isOffSince = ({ atMs }: ToolReading): boolean => (tool.lastOffMs ?? Number.NEGATIVE_INFINITY) >= atMs;
  return reads.filter(
    (read) =>
      nowMs - read.atMs <= READING_GOOD_MS ||
      (read.tempC > tool.maxAirC && !isOffSince(read) && !isAnswered(read, tool, reads)),
  );
}

/**
 * The hotter of what was last entered for a tool and what its place's hygrometer says, but none above its limit once a later
 * one is within; undefined of old or no readings.
 */
export function hottestRead(kitchen: Kitchen, tool: ToolState, nowMs: number): ToolReading | undefined {
  const reads = lastingReads(kitchen, tool, nowMs);
  return reads.filter((read) => !isAnswered(read, tool, reads)).toSorted((a, b) => b.tempC - a.tempC)[0];
}

/** What a tool was read at last, after a moment, whichever way it came; undefined of old or no readings. */
export const latestRead = (
  kitchen: Kitchen,
  tool: ToolState,
  nowMs: number,
  afterMs = Number.NEGATIVE_INFINITY,
): ToolReading | undefined =>
  lastingReads(kitchen, tool, nowMs)
    .filter(({ atMs }) => atMs > afterMs)
    .toSorted((a, b) => b.atMs - a.atMs || b.tempC - a.tempC)[0];

/** Moment until which a tool that was switched off may not be touched or put away; undefined when it is on, or cold. */
export function coolsUntilMs(tool: ToolState, nowMs: number): number | undefined {
  if (tool.use.status !== "off" || tool.use.offAtMs === undefined) return undefined;
  const untilMs = tool.use.offAtMs + Math.max(tool.coolDownMin, tool.use.coolDownMin ?? 0) * MIN_MS;
  return untilMs > nowMs ? untilMs : undefined;
}

/**
 * The hottest a tray can have got in a place: what it is set to, or was read at; undefined where nothing heats it. Where
 * every tool was said off and has cooled, the set temperature counts no more.
 */
function chamberC(kitchen: Kitchen, placeId: string, nowMs: number): number | undefined {
  const tools = warmersOf(kitchen, placeId);
  const setC =
    tools.length > 0 && tools.every((tool) => isCold(tool, nowMs))
      ? undefined
      : kitchen.places[placeId]?.setTempC;
  // What was read too hot of late counts though it was read lower since: the tray was in that air.
  const read = tools.flatMap((tool) => lastingReads(kitchen, tool, nowMs).map(({ tempC }) => tempC));
  return highest(setC, ...read);
}

const isCold = (tool: ToolState, nowMs: number): boolean =>
  tool.use.status === "off" && tool.use.offAtMs !== undefined && coolsUntilMs(tool, nowMs) === undefined;

/** The highest of those that are known. */
export function highest(...temps: readonly (number | undefined)[]): number | undefined {
  const known = temps.filter((tempC) => tempC !== undefined);
  return known.length === 0 ? undefined : Math.max(...known);
}

/** Until when a tray is hot that leaves where it stands, or the chamber it is under heat in; nothing when it never was too hot. */
export function hotOnLeaving(kitchen: Kitchen, tray: Tray, atMs: number): number | undefined {
  const { status } = tray;
  const heat = status.stage === "heat-set" && status.heat.toolKind !== "hot-air" ? status.heat : undefined;
  const leftAtC = highest(heat?.airC, chamberC(kitchen, standsAt(tray).placeId, atMs));
  return hotUntil(kitchen, leftAtC, tray.count, atMs);
}

/**
 * Until when a tray may not be touched without mitts; undefined once it may. One that stands where it is hot would be so
 * long were it taken out now, to the minute; one under heat is told as that.
 */
export function stillHotUntilMs(kitchen: Kitchen, tray: Tray, nowMs: number): number | undefined {
  const { hotUntilMs, status } = tray;
  const there =
    status.stage === "heat-set" || status.stage === "packed" ? undefined : hotOnLeaving(kitchen, tray, nowMs);
  const inIt = there === undefined ? undefined : Math.ceil(there / MIN_MS) * MIN_MS;
  const untilMs = highest(hotUntilMs, inIt);
  return untilMs !== undefined && untilMs > nowMs ? untilMs : undefined;
}

/** When a tray of so many cookies that leaves heat at this temperature may be touched again; nothing when it never was too hot. */
export function hotUntil(
  kitchen: Kitchen,
  leftAtC: number | undefined,
  cookies: number,
  atMs: number,
): number | undefined {
  if (leftAtC === undefined || leftAtC <= TOUCH_SAFE_C) return undefined;
  // A reading may be of a place hotter than any room a tray cools in, or of what once was a hot-air tool.
  const roomC = Math.min(45, Math.max(-10, roomAir(kitchen).tempC));
  const safeAfterS = traySafeAfterS(Math.min(300, leftAtC), roomC, cookies);
  return safeAfterS > 0 ? Math.round(atMs + safeAfterS * 1000) : undefined;
}
