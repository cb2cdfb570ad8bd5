import { openSinceMs } from "#shared/kitchen/model/opening-hours.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { coolsUntilMs, stillHotUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import type { Words } from "#shared/words/words.ts";
import { MIN_MS } from "#shared/time.ts";

/** What the wall says of heat: each is left out where there is nothing to say. */
export interface ToolsLine {
  /** Tools that are on, hot trays, tools that are still hot: where a line is cut short, what cools by itself goes. */
  text?: string;
  /** The kitchen has closed, and these are not confirmed off: it stays until someone says so. */
  unconfirmed?: string;
}

/** The tools that are on, the trays that are hot, the tools that cool; once closed, those on are shown above all as not confirmed off. */
export function toolsLine(words: Words, kitchen: Kitchen, nowMs: number): ToolsLine {
  const { wall, alerts, format } = words;
  // The hottest first: where even these have no room, it is a cabinet that goes.
  const tools = Object.values(kitchen.tools).toSorted((a, b) => b.maxAirC - a.maxAirC);
  const on = tools.flatMap(({ name, use }) =>
    use.status === "on"
      ? [
          {
            name,
            onMin: (nowMs - use.onAtMs) / MIN_MS,
            holder: kitchen.people[use.holder]?.name ?? alerts.someone,
          },
        ]
      : [],
  );
  const cooling = tools.flatMap((tool) => {
    const untilMs = coolsUntilMs(tool, nowMs);
    return untilMs === undefined ? [] : wall.tools.hotUntil(tool.name, format.time(untilMs));
  });
  const running = on.map(({ name, onMin, holder }) => wall.tools.onSince(name, onMin, holder));
  const parts = [...running, ...hotTrays(words, kitchen, nowMs), ...cooling];
  const isUnconfirmed = on.length > 0 && openSinceMs(kitchen.settings, nowMs) === undefined;
  const holders = on.map(({ name, holder }) => wall.tools.heldBy(name, holder));
  return {
    ...(parts.length > 0 && { text: parts.join(" · ") }),
    ...(isUnconfirmed && { unconfirmed: holders.join(", ") }),
  };
}

/** Two trays each with their own moment; more of them with the last one's, so that a line has room for the tools. */
function hotTrays({ wall: { tools }, format }: Words, kitchen: Kitchen, nowMs: number): string[] {
  const hot = aliveTrays(kitchen).flatMap((tray) => {
    const untilMs = stillHotUntilMs(kitchen, tray, nowMs);
    return untilMs === undefined ? [] : { number: tray.number, untilMs };
  });
  if (hot.length === 0) return [];
  if (hot.length <= 2)
    return [tools.hotTrays(hot.map(({ number, untilMs }) => tools.hotTray(number, format.time(untilMs))))];
  const lastMs = Math.max(...hot.map(({ untilMs }) => untilMs));
  return [tools.hotTraysLast(sayNumbers(hot.map(({ number }) => number)), format.time(lastMs))];
}
