import type { Kitchen, ToolState } from "#shared/kitchen/model/state.ts";
import { coolsUntilMs, READING_GOOD_MS } from "#shared/kitchen/tray/tool-heat.ts";
import { unreachable } from "#shared/outcome.ts";
import { clockTime } from "#shared/words/wording.ts";
import { formatSpan, formatTemp } from "#shared/units.ts";
import type { KitchenUnits } from "#shared/units.ts";
import { MIN_MS } from "#shared/time.ts";

/** Milliseconds until a tool that was switched off may be touched or put away; 0 when it is cold. */
export const coolingLeftMs = (tool: ToolState, nowMs: number): number =>
  (coolsUntilMs(tool, nowMs) ?? nowMs) - nowMs;

/** "on 12 min, Wren", "off, hot for about 8 min more", "off", "out of service: frayed cord · on 12 min, Wren". */
export function toolWords(kitchen: Kitchen, tool: ToolState, nowMs: number): string {
  const use = useWords(kitchen, tool, nowMs);
  if (tool.outOfService === undefined) return use;
  const { reason } = tool.outOfService;
  return use === "off" ? `out of service: ${reason}` : `out of service: ${reason} · ${use}`;
}

/** "read 22 °C at 05:03", of a tool that is on and was read since and of late; what was read before tells of a cold one. */
export function readWords(
  { use, lastTemperature: read }: ToolState,
  nowMs: number,
  units: KitchenUnits,
  zone: string,
): string | undefined {
  if (
    read === undefined ||
    use.status !== "on" ||
    read.atMs <= use.onAtMs ||
    nowMs - read.atMs >= READING_GOOD_MS
  )
    return undefined;
  return `read ${formatTemp(read.tempC, units)} at ${clockTime(read.atMs, zone)}`;
}

function useWords(kitchen: Kitchen, tool: ToolState, nowMs: number): string {
  switch (tool.use.status) {
    case "on": {
      const who = kitchen.people[tool.use.holder]?.name ?? "someone";
      return `on ${formatSpan((nowMs - tool.use.onAtMs) / MIN_MS)}, ${who}`;
    }
    case "off": {
      const leftMs = coolingLeftMs(tool, nowMs);
      return leftMs > 0 ? `off, hot for about ${formatSpan(Math.ceil(leftMs / MIN_MS))} more` : "off";
    }
    default:
      return unreachable(tool.use);
  }
}
