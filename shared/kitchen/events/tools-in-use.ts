import type { EventOf, KitchenEvent } from "#shared/kitchen/model/event.ts";
import { heatHolder, standsAt, trayUnder, warmersOf } from "#shared/kitchen/model/lookups.ts";
import type { HeatSet, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { knownOnAt, outOfHeat, underHeat, usedAt } from "#shared/kitchen/tray/tool-use.ts";
import { onUse, withTool } from "./tables.ts";

// What an act on a tray says about the tool that warms it; `was` is the tray before the act.

/** A heat-set switches its tool on and keeps it from idling; when it ends, the tool stands idle until someone says more. */
export function onToolOfAct(kitchen: Kitchen, was: Tray | undefined, event: KitchenEvent): Kitchen {
  if (event.type === "heat-set-started") return inUse(kitchen, event.toolId, event.by, event.atMs);
  const ended = event.type === "heat-set-ended" ? heatOf(was) : undefined;
  return ended === undefined ? kitchen : idle(kitchen, ended.toolId, event.atMs);
}

/** A heat-set whose start was taken back leaves its tool on with nothing under it; one whose end was, runs on. */
export function onToolOfTakeBack(
  kitchen: Kitchen,
  before: Tray | undefined,
  event: EventOf<"act-taken-back">,
): Kitchen {
  const [was, is] = [heatOf(before), heatOf(kitchen.trays[event.trayId])];
  if (was !== undefined && is === undefined) return idle(kitchen, was.toolId, event.atMs);
  if (was !== undefined || is === undefined) return kitchen;
  return inUse(kitchen, is.toolId, heatHolder(kitchen, is), is.startedAtMs, event.atMs);
}

/**
 * A tray that has come to stand in a tool's place, without a heat-set, is warmed there: unless said off since, or out of
 * service, the tool is on.
 */
export function onToolOfStay(
  kitchen: Kitchen,
  was: Tray | undefined,
  { trayId, by }: { trayId: string; by: HeatSet["holder"] },
): Kitchen {
  const is = kitchen.trays[trayId];
  if (was === undefined || is === undefined || is.status.stage === "heat-set" || by === "kitchen")
    return kitchen;
  const { placeId, fromMs } = standsAt(is);
  if (placeId === standsAt(was).placeId) return kitchen;
  const fit = warmersOf(kitchen, placeId).filter(({ outOfService }) => outOfService === undefined);
  return fit.reduce((so, tool) => withTool(so, { ...tool, use: usedAt(tool.use, by, fromMs) }), kitchen);
}

function heatOf(tray: Tray | undefined): HeatSet | undefined {
  const status = tray?.status;
  return status?.stage === "heat-set" ? status.heat : undefined;
}

const inUse = (
  kitchen: Kitchen,
  toolId: string,
  by: HeatSet["holder"],
  fromMs: number,
  saidMs = fromMs,
): Kitchen => onUse(kitchen, toolId, (use) => underHeat(use, by, fromMs, saidMs));

/** A heat-set of this tool ended then; where another one's tray is still under it, it does not idle. */
const idle = (kitchen: Kitchen, toolId: string, atMs: number): Kitchen =>
  onUse(kitchen, toolId, (use) =>
    trayUnder(kitchen, toolId) === undefined ? outOfHeat(use, atMs) : knownOnAt(use, atMs),
  );
