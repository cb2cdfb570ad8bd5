import { no, type Decision } from "./deciding.ts";
import type { Refusal, UnfitFact } from "#shared/kitchen/model/refusal.ts";
import { chamberOf, roomLeft, standsAt, trayUnder, warmersOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, ToolState, Tray } from "#shared/kitchen/model/state.ts";
import { hottestRead } from "#shared/kitchen/tray/tool-heat.ts";

/** Why a tool warms no tray now. */
export interface Unfit {
  reason: Refusal["reason"];
  fact: UnfitFact;
}

/** Why no tray may come to a tool: it is out of service, or was read above its limit. */
export function unsafe(kitchen: Kitchen, tool: ToolState, atMs: number): Unfit | undefined {
  const { name, outOfService, maxAirC } = tool;
  if (outOfService !== undefined)
    return {
      reason: "out-of-service",
      fact: { why: "out of service", tool: name, note: outOfService.reason },
    };
  const read = hottestRead(kitchen, tool, atMs);
  if (read !== undefined && read.tempC > maxAirC)
    return {
      reason: "out-of-service",
      fact: { why: "read too hot", tool: name, readC: read.tempC, maxC: maxAirC },
    };
  return undefined;
}

/** Why this tray cannot be under a tool's heat now; nothing when it can. */
export function unfitFor(kitchen: Kitchen, tool: ToolState, tray: Tray, atMs: number): Unfit | undefined {
  const other = tool.kind === "hot-air" ? trayUnder(kitchen, tool.id) : undefined;
  const placeId = chamberOf(tool);
  const isFull =
    placeId !== undefined && standsAt(tray).placeId !== placeId && roomLeft(kitchen, placeId) <= 0;
  const { name, capacity } = kitchen.places[placeId ?? ""] ?? { name: tool.name, capacity: 0 };
  const unfit = unsafe(kitchen, tool, atMs);
  if (unfit !== undefined) return unfit;
  if (other !== undefined)
    return { reason: "in-use", fact: { why: "in use", tool: tool.name, tray: other.number } };
  return isFull ? { reason: "no-room", fact: { why: "full", place: name, capacity } } : undefined;
}

/** Why a tray may not be put where it would be warmed; nothing where no tool warms the place, or a fit one does. */
export function unsafePlace(kitchen: Kitchen, placeId: string, atMs: number): Decision | undefined {
  for (const tool of warmersOf(kitchen, placeId)) {
    const unfit = unsafe(kitchen, tool, atMs);
    if (unfit !== undefined) return refusedAs(unfit);
  }
  return undefined;
}

/** What a tool is unfit for, as a refusal. */
export const refusedAs = ({ reason, fact }: Unfit): Decision => no(reason, { code: "unfit", unfit: fact });
