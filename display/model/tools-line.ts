import type { PersonId } from "#shared/ids.ts";
import { formatSpan } from "#shared/units.ts";
import { openSinceMs } from "#shared/kitchen/model/opening-hours.ts";
import { aliveTrays, type Kitchen } from "#shared/kitchen/model/state.ts";
import { coolsUntilMs, stillHotUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { clockTime } from "#shared/words/wording.ts";
import { MIN_MS } from "#shared/time.ts";

/** What the wall says of heat: each is left out where there is nothing to say. */
export interface ToolsLine {
  /** Tools that are on, hot trays, tools that are still hot: where a line is cut short, what cools by itself goes. */
  text?: string;
  /** The kitchen has closed, and these are not confirmed off: it stays until someone says so. */
  unconfirmed?: string;
}

/** Goes before the line while nothing is heard from the server. */
export const AS_LAST_HEARD = "As last heard: ";

/** The tools that are on, the trays that are hot, the tools that cool; once closed, those on are told above all as not confirmed off. */
export function toolsLine(kitchen: Kitchen, nowMs: number): ToolsLine {
  // The hottest first: where even these have no room, it is a cabinet that goes.
  const tools = Object.values(kitchen.tools).toSorted((a, b) => b.maxAirC - a.maxAirC);
  const holderOf = (holder: PersonId): string => kitchen.people[holder]?.name ?? "someone";
  const on = tools.flatMap(({ name, use }) =>
    use.status === "on" ? [`${name} (${holderOf(use.holder)})`] : [],
  );
  const isUnconfirmed = on.length > 0 && openSinceMs(kitchen.settings, nowMs) === undefined;
  const running = tools.flatMap(({ name, use }) =>
    use.status === "on"
      ? [`${name} on ${formatSpan((nowMs - use.onAtMs) / MIN_MS)}, ${holderOf(use.holder)}`]
      : [],
  );
  const cooling = tools.flatMap((tool) => {
    const untilMs = coolsUntilMs(tool, nowMs);
    return untilMs === undefined
      ? []
      : [`${tool.name} hot until about ${clockTime(untilMs, kitchen.settings.timeZone)}`];
  });
  const words = [...running, ...hotTrays(kitchen, nowMs), ...cooling];
  return {
    ...(words.length === 0 ? {} : { text: words.join(" · ") }),
    ...(isUnconfirmed ? { unconfirmed: on.join(", ") } : {}),
  };
}

/** Two trays each with their own moment; more of them with the last one's, so that a line has room for the tools. */
function hotTrays(kitchen: Kitchen, nowMs: number): string[] {
  const hot = aliveTrays(kitchen).flatMap((tray) => {
    const untilMs = stillHotUntilMs(kitchen, tray, nowMs);
    return untilMs === undefined ? [] : [{ number: tray.number, untilMs }];
  });
  const until = (untilMs: number): string => `until about ${clockTime(untilMs, kitchen.settings.timeZone)}`;
  if (hot.length === 0) return [];
  if (hot.length <= 2)
    return [`Hot, dry mitts: ${hot.map(({ number, untilMs }) => `${number} ${until(untilMs)}`).join(", ")}`];
  const numbers = sayNumbers(
    hot.map(({ number }) => number).toSorted((a, b) => a - b),
    hot.length,
  );
  return [`Hot, dry mitts: ${numbers}, the last ${until(Math.max(...hot.map(({ untilMs }) => untilMs)))}`];
}
