import { TOOL_DEFAULTS, toolFault, type ToolFault } from "#shared/heat/tool.ts";
import { MOST } from "#shared/limits.ts";
import { isHotterAsRead } from "#shared/units.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { nameTaken, numbersOf, tableFull } from "./checks.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import { aliveTrays, keepsRoom, trayUnder } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { coolsUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import type { RefusalFact } from "#shared/kitchen/model/refusal.ts";

/** The kitchen's settings, places and heat tools. Settings that are not given stay as they are. */
export function setKitchen(command: CommandOf<"set-kitchen">, { kitchen, stamp }: Deciding): Decision {
  const given = Object.fromEntries(
    Object.entries(command.settings).filter(([, value]) => value !== undefined),
  );
  return yes({ type: "settings-changed", ...stamp, settings: { ...kitchen.settings, ...given } });
}

export function putPlace({ place }: CommandOf<"put-place">, { kitchen, stamp }: Deciding): Decision {
  const twin = nameTaken(kitchen.places, place, "place");
  if (twin !== undefined) return twin;
  const fixed = fixedIn(kitchen, place);
  if (fixed !== undefined) return fixed;
  if (place.kind === "oven" || place.kind === "warm-cabinet") {
    if (place.setTempC === undefined)
      return no("out-of-range", { code: "set-temp-missing", place: place.name });
    const fault = toolFault({
      ...TOOL_DEFAULTS[place.kind],
      airC: place.setTempC,
      airSpeedMs: place.airSpeedMs,
    });
    if (fault !== undefined)
      return no("out-of-range", fieldFact("place", fault, fault.field === "airC" ? "setTempC" : fault.field));
    const cooler = Object.values(kitchen.tools).find(
      ({ placeId, maxAirC }) =>
        placeId === place.id && isHotterAsRead(place.setTempC ?? 0, maxAirC, kitchen.settings.units),
    );
    if (cooler !== undefined)
      return no("out-of-range", { code: "set-temp-over-tool", tool: cooler.name, maxC: cooler.maxAirC });
  } else if (place.setTempC !== undefined) {
    return no("out-of-range", { code: "set-temp-not-here", kind: place.kind });
  }
  if (
    place.airFrom === place.id ||
    (place.airFrom !== undefined && kitchen.places[place.airFrom] === undefined)
  )
    return no("unknown", { code: "must-name-other-place", field: "place.airFrom" });
  return (
    tableFull(kitchen.places, place.id, MOST.places, "place") ?? yes({ type: "place-put", ...stamp, place })
  );
}

export function removePlace(command: CommandOf<"remove-place">, { kitchen, stamp }: Deciding): Decision {
  const place = kitchen.places[command.placeId];
  if (place === undefined) return no("unknown", { code: "no-such", thing: "place", id: command.placeId });
  const there = aliveTrays(kitchen).filter((tray) => keepsRoom(tray, place.id));
  if (there.length > 0)
    return no("in-use", { code: "place-holds", place: place.name, trays: numbersOf(there) });
  const tool = Object.values(kitchen.tools).find((one) => one.placeId === place.id);
  if (tool !== undefined) return no("in-use", { code: "place-has-tool", place: place.name, tool: tool.name });
  return yes({ type: "place-removed", ...stamp, placeId: place.id });
}

export function putTool({ tool }: CommandOf<"put-tool">, { kitchen, stamp }: Deciding): Decision {
  const twin = nameTaken(kitchen.tools, tool, "tool");
  if (twin !== undefined) return twin;
  const before = kitchen.tools[tool.id];
  const under = trayUnder(kitchen, tool.id);
  if (under !== undefined && (before?.kind !== tool.kind || before.placeId !== tool.placeId))
    return no("in-use", { code: "over-tray", tool: tool.name, tray: under.number, first: "end" });
  const place = kitchen.places[tool.placeId ?? ""];
  if (tool.kind !== "hot-air" && place?.kind !== tool.kind)
    return no("unknown", { code: "must-name-chamber", field: "tool.placeId", kind: tool.kind });
  const fault = toolFault(heatToolOf(kitchen, tool));
  if (fault !== undefined) return no("out-of-range", fieldFact("tool", fault, fault.field));
  const { airC } = heatToolOf(kitchen, tool);
  if (isHotterAsRead(airC, tool.maxAirC, kitchen.settings.units))
    return no("out-of-range", { code: "limit-under-air", tool: tool.name, airC, maxC: tool.maxAirC });
  return tableFull(kitchen.tools, tool.id, MOST.tools, "tool") ?? yes({ type: "tool-put", ...stamp, tool });
}

export function removeTool(command: CommandOf<"remove-tool">, { kitchen, stamp, nowMs }: Deciding): Decision {
  const tool = kitchen.tools[command.toolId];
  if (tool === undefined) return no("unknown", { code: "no-such", thing: "tool", id: command.toolId });
  if (tool.use.status === "on") return no("in-use", { code: "turn-off-first", tool: tool.name });
  const coldMs = coolsUntilMs(tool, nowMs);
  if (coldMs !== undefined) return no("in-use", { code: "still-hot", tool: tool.name, untilMs: coldMs });
  return yes({ type: "tool-removed", ...stamp, toolId: tool.id });
}

/** What of a place its tools hold fast: its kind, and all that a heat-set under way was told by. */
function fixedIn(kitchen: Kitchen, place: Place): Decision | undefined {
  const before = kitchen.places[place.id];
  if (before === undefined) return undefined;
  for (const tool of Object.values(kitchen.tools).filter(({ placeId }) => placeId === place.id)) {
    const under = trayUnder(kitchen, tool.id);
    const field = (["kind", "setTempC", "airSpeedMs"] as const).find((one) => before[one] !== place[one]);
    if (field !== undefined && under !== undefined)
      return no("in-use", { code: "place-fixed", field, tool: tool.name, tray: under.number });
    if (field === "kind")
      return no("in-use", { code: "place-kind-fixed", kind: before.kind, tool: tool.name });
  }
  return undefined;
}

/** A tool's figure out of its range, by the path of the field that was sent. */
const fieldFact = (thing: "place" | "tool", { min, max, unit }: ToolFault, field: string): RefusalFact => ({
  code: "field",
  field: `${thing}.${field}`,
  must: { is: "between", min, max, unit },
});
