import type { Band } from "#shared/drying/uncertainty/band.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Pill } from "./pill-packing.ts";
import { readiness } from "#shared/kitchen/tray/route.ts";
import { aliveTrays, filmKey } from "#shared/kitchen/model/lookups.ts";
import type { HeatSet, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { stillHotUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import type { Stretch } from "./time-axis.ts";

/** The lanes of the wall, each a stage, top to bottom. */
export const LANES = ["flooding", "heat-set", "crusting", "full-dry"] as const;
export type Lane = (typeof LANES)[number];

/** The same of every lane. */
export const eachLane = <Of>(of: (lane: Lane) => Of): Record<Lane, Of> =>
  Object.fromEntries(LANES.map((lane) => [lane, of(lane)])) as Record<Lane, Of>;

/**
 * The pills of each lane. Trays that need someone are tiles (ready.ts). One too long under heat stays in its lane beside its
 * alert: of many alerts only the first have room. Those that will not dry, or have no forecast yet, stand at the axis' end
 * and say so.
 */
export function comingIn(
  kitchen: Kitchen,
  forecasts: Forecasts,
  nowMs: number,
): Readonly<Record<Lane, readonly Pill[]>> {
  const lanes = eachLane((): Pill[] => []);
  const overdue = new Set(
    Object.values(kitchen.alerts).flatMap(({ kind, trayId }) =>
      kind === "heat-running-long" ? (trayId ?? []) : [],
    ),
  );
  for (const tray of aliveTrays(kitchen)) {
    const { stage } = tray.status;
    if (stage === "queued" || stage === "packed") continue;
    const due = dueOf(kitchen, forecasts, tray, nowMs);
    if (due !== "needs someone") lanes[stage].push(pillOf(kitchen, tray, due, nowMs, overdue.has(tray.id)));
  }
  return lanes;
}

function dueOf(
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): Band | "needs someone" | undefined {
  const { status } = tray;
  // Its clock counts from the first cookie: past its skin, bubbles are out of reach.
  if (status.stage === "flooding") return forecasts.films[filmKey(tray.id, status.layer)]?.skin;
  if (status.stage === "heat-set") return setBand(status.heat, nowMs);
  const state = readiness(kitchen, forecasts, tray, nowMs);
  if (state.is === "coming") return state.band;
  if (state.is === "never") return { never: state.why };
  return state.is === "unknown" ? undefined : "needs someone";
}

/** When the heat has set it: check by touch from the earliest on. Spans of this kind are log-normal, so the middle is geometric. */
function setBand({ lapFromMs, pausedSinceMs, limits }: HeatSet, nowMs: number): Band {
  const fromMs = pausedSinceMs === undefined ? lapFromMs : nowMs;
  return {
    earliestMs: fromMs + limits.checkFromS * 1000,
    likelyMs: fromMs + Math.sqrt(limits.checkFromS * limits.checkToS) * 1000,
    latestMs: fromMs + limits.checkToS * 1000,
  };
}

/** Beyond every axis. */
const NO_TIME: Stretch = { earliestMs: 8e15, likelyMs: 8e15, latestMs: 8e15 };

function pillOf(
  kitchen: Kitchen,
  tray: Tray,
  due: Band | undefined,
  nowMs: number,
  isOverdue: boolean,
): Pill {
  const { id, number, designId, status, films } = tray;
  // Where on its way a tray is: trays of one design at one point wait on the same thing.
  const point = `${status.stage}/${status.stage === "flooding" ? status.layer : films.length}`;
  const key = `${id}/${point}`;
  const cookie = { designId, laid: films.length };
  const pill = { key, keys: [key], trayIds: [id], numbers: [number], ...cookie, label: String(number) };
  if (due === undefined || "never" in due) {
    const is = due === undefined ? "unknown" : "never";
    return { ...pill, ...NO_TIME, group: is, is, note: is };
  }
  if (status.stage === "heat-set") {
    const { lapFromMs, pausedSinceMs } = status.heat;
    const counting = { ...pill, ...due, ...(pausedSinceMs === undefined && { countFromMs: lapFromMs }) };
    // They all stand at the axis' start. Where the lane has no row for each they are shown as one, never left out.
    return isOverdue ? { ...counting, isOverdue, group: `overdue/${status.heat.toolKind}` } : counting;
  }
  // The line of heat tools says until when.
  const isHot = stillHotUntilMs(kitchen, tray, nowMs) !== undefined;
  return { ...pill, ...due, group: `${designId}/${point}/${isHot}`, ...(isHot && { note: "hot" }) };
}
