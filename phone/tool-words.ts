import type { Kitchen, ToolState } from "#shared/kitchen/state.ts";
import { coolsUntilMs } from "#shared/kitchen/tools-line.ts";
import { unreachable } from "#shared/outcome.ts";
import { formatSpan } from "#shared/units.ts";

const MIN_MS = 60_000;

/** Milliseconds until a tool that was switched off may be touched or put away; 0 when it is cold. */
export const coolingLeftMs = (tool: ToolState, nowMs: number): number =>
  (coolsUntilMs(tool, nowMs) ?? nowMs) - nowMs;

/** "on 12 min, Wren", "cooling, about 8 min left", "off", "out of service: frayed cord". */
export function toolWords(kitchen: Kitchen, tool: ToolState, nowMs: number): string {
  if (tool.outOfService !== undefined) return `out of service: ${tool.outOfService.reason}`;
  switch (tool.use.status) {
    case "on": {
      const who = kitchen.people[tool.use.holder]?.name ?? "someone";
      return `on ${formatSpan((nowMs - tool.use.onAtMs) / MIN_MS)}, ${who}`;
    }
    case "off": {
      const leftMs = coolingLeftMs(tool, nowMs);
      return leftMs > 0 ? `off, hot for about ${formatSpan(leftMs / MIN_MS)} more` : "off";
    }
    default:
      return unreachable(tool.use);
  }
}
