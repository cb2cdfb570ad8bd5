import type { PersonId } from "#shared/ids.ts";
import { type AlertFact, makeAlert } from "#shared/kitchen/model/alert.ts";
import { chamberOf, heatHolder, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, ToolState } from "#shared/kitchen/model/state.ts";
import { latestRead } from "#shared/kitchen/tray/tool-heat.ts";
import { activeKey, keyFor, peopleOf, type Scene } from "./scene.ts";
import { MIN_MS } from "#shared/time.ts";

/** A tool too hot must fall this far below its limit before the alert goes. */
const COOLER_BY_C = 2;

/** Tools left on with nothing under them, and tools hotter than they may be. */
export function toolAlerts(scene: Scene): AlertFact[] {
  const tools = Object.values(scene.kitchen.tools);
  return [...tools.flatMap((tool) => leftOn(scene, tool)), ...tools.flatMap((tool) => tooHot(scene, tool))];
}

function leftOn(scene: Scene, tool: ToolState): AlertFact[] {
  const idleMs = idleSinceMs(scene.kitchen, tool);
  if (tool.use.status !== "on" || idleMs === undefined) return [];
  if (scene.nowMs - idleMs < scene.kitchen.settings.toolIdleMin * MIN_MS) return [];
  const holderId = tool.use.holder;
  const key = keyFor(scene, `tool-left-on:${tool.id}`, idleMs, [holderId]);
  return [
    makeAlert("tool-left-on", { people: [holderId] }, { key, toolId: tool.id, holderId, sinceMs: idleMs }),
  ];
}

/** Since when a tool that is on has had nothing under it; undefined when it has, or is off. */
function idleSinceMs(kitchen: Kitchen, tool: ToolState): number | undefined {
  if (tool.use.status !== "on") return undefined;
  const pausedMs = pausedSinceMs(kitchen, tool);
  if (pausedMs !== undefined) return Math.max(pausedMs, tool.use.usedAtMs ?? pausedMs);
  if (tool.use.idleSinceMs === undefined) return undefined;
  let idleMs = tool.use.idleSinceMs;
  for (const tray of Object.values(kitchen.trays)) {
    if (tray.status.stage === "heat-set" && tray.status.heat.toolId === tool.id) return undefined;
    if (chamberOf(tool) === undefined) continue;
    if (tray.status.stage !== "packed" && standsAt(tray).placeId === tool.placeId) return undefined;
    const packedMs = tray.status.stage === "packed" ? tray.status.atMs : undefined;
    for (const [index, stay] of tray.placements.entries()) {
      const left = tray.placements[index + 1]?.fromMs ?? packedMs;
      if (stay.placeId === tool.placeId && left !== undefined) idleMs = Math.max(idleMs, left);
    }
  }
  return idleMs;
}

/** Since when hot air is on no cookie, between two. */
function pausedSinceMs({ trays }: Kitchen, { id }: ToolState): number | undefined {
  for (const { status } of Object.values(trays))
    if (status.stage === "heat-set" && status.heat.toolId === id) return status.heat.pausedSinceMs;
  return undefined;
}

function tooHot(scene: Scene, tool: ToolState): AlertFact[] {
  const prefix = `oven-too-hot:${tool.id}`;
  // Hot though nobody tapped it on, or after it was said off: read since then, it is hotter than anyone thinks.
  const offAtMs = tool.use.status === "off" ? tool.use.offAtMs : undefined;
  const read = latestRead(scene.kitchen, tool, scene.nowMs, offAtMs);
  if (read === undefined) return [];
  const people = holdersOf(scene.kitchen, tool);
  const isStanding = activeKey(scene.kitchen, prefix) !== undefined;
  if (read.tempC <= tool.maxAirC - (isStanding ? COOLER_BY_C : 0)) return [];
  const key = keyFor(scene, prefix, read.atMs, people);
  return [
    makeAlert("oven-too-hot", { people }, { key, toolId: tool.id, toolKind: tool.kind, sinceMs: read.atMs }),
  ];
}

/** Who holds a tool that is on, and whose trays are in it: each has some to take out. Sorted, each once. */
function holdersOf(kitchen: Kitchen, { id, use }: ToolState): PersonId[] {
  if (use.status === "off") return [];
  const ofTrays = Object.values(kitchen.trays).flatMap(({ status: now }) =>
    now.stage === "heat-set" && now.heat.toolId === id ? peopleOf(heatHolder(kitchen, now.heat)) : [],
  );
  return [...new Set([use.holder, ...ofTrays])].toSorted();
}
