import { formatTemp } from "#shared/units.ts";
import { no, type Decision } from "./deciding.ts";
import type { Refusal } from "#shared/kitchen/model/refusal.ts";
import {
  chamberOf,
  roomLeft,
  standsAt,
  trayUnder,
  warmersOf,
  type Kitchen,
  type ToolState,
  type Tray,
} from "#shared/kitchen/model/state.ts";
import { hottestRead } from "#shared/kitchen/tray/tool-heat.ts";

/** Why a tool warms no tray now: the matter, then what to do or know of it. */
export interface Unfit {
  reason: Refusal["reason"];
  why: string;
  more: string;
}

/** Why no tray may come to a tool: it is out of service, or was read above its limit. */
export function unsafe(kitchen: Kitchen, tool: ToolState, atMs: number): Unfit | undefined {
  if (tool.outOfService !== undefined)
    return {
      reason: "out-of-service",
      why: `${tool.name} is out of service`,
      more: tool.outOfService.reason,
    };
  const read = hottestRead(kitchen, tool, atMs);
  const temp = (tempC: number): string => formatTemp(tempC, kitchen.settings.units);
  if (read !== undefined && read.tempC > tool.maxAirC)
    return {
      reason: "out-of-service",
      why: `${tool.name} was read at ${temp(read.tempC)}, over its limit of ${temp(tool.maxAirC)}`,
      more: "let it cool and enter its temperature again.",
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
  return (
    unsafe(kitchen, tool, atMs) ??
    (other === undefined
      ? undefined
      : {
          reason: "in-use",
          why: `${tool.name} is over tray ${other.number} now`,
          more: "one tray at a time.",
        }) ??
    (isFull
      ? {
          reason: "no-room",
          why: `${name} is full`,
          more: `it holds ${capacity} ${capacity === 1 ? "tray" : "trays"}.`,
        }
      : undefined)
  );
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
export const refusedAs = ({ reason, why, more }: Unfit): Decision => no(reason, `${why}: ${more}`);
