import type { Kitchen, ToolState } from "#shared/kitchen/model/state.ts";
import { coolsUntilMs, READING_GOOD_MS } from "#shared/kitchen/tray/tool-heat.ts";
import { MIN_MS } from "#shared/time.ts";
import type { ToolFact } from "#shared/words/heat-facts.ts";

/** Milliseconds until a tool that was switched off may be touched or put away; 0 when it is cold. */
export const coolingLeftMs = (tool: ToolState, nowMs: number): number =>
  (coolsUntilMs(tool, nowMs) ?? nowMs) - nowMs;

/** The tools to see to before going home: those that are on, or may still be hot. */
export const toolsToCheck = (kitchen: Kitchen, nowMs: number): ToolState[] =>
  Object.values(kitchen.tools).filter((tool) => tool.use.status === "on" || coolingLeftMs(tool, nowMs) > 0);

/** What a tool is doing, for words. */
export function toolFact(kitchen: Kitchen, tool: ToolState, nowMs: number): ToolFact {
  const out = tool.outOfService === undefined ? {} : { outOfService: tool.outOfService.reason };
  if (tool.use.status === "on") {
    const holder = kitchen.people[tool.use.holder]?.name;
    return { use: "on", onMin: (nowMs - tool.use.onAtMs) / MIN_MS, holder, ...out };
  }
  const leftMs = coolingLeftMs(tool, nowMs);
  return leftMs > 0
    ? { use: "cooling", leftMin: Math.ceil(leftMs / MIN_MS), ...out }
    : { use: "off", ...out };
}

/** The reading of a tool that is on and was read since and of late; what was read before tells of a cold one. */
export function readingOf(
  { use, lastTemperature: read }: ToolState,
  nowMs: number,
): { tempC: number; atMs: number } | undefined {
  const isGood =
    read !== undefined &&
    use.status === "on" &&
    read.atMs > use.onAtMs &&
    nowMs - read.atMs < READING_GOOD_MS;
  return isGood ? read : undefined;
}
