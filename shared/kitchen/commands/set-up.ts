import { TOOL_DEFAULTS, toolFault, type ToolFault } from "#shared/heat/tool.ts";
import { MOST } from "#shared/limits.ts";
import { unreachable } from "#shared/outcome.ts";
import { isHotterAsRead } from "#shared/units.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { decidePeople } from "./people.ts";
import { no, noRoomIn, yes, type Deciding, type Decision } from "./deciding.ts";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import {
  traysOf,
  aliveTrays,
  keepsRoom,
  roomLeft,
  trayUnder,
  type Kitchen,
} from "#shared/kitchen/model/state.ts";
import { cookiesOnTrays } from "#shared/kitchen/model/order-cookies.ts";
import { coolsUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import type { Design, Place } from "#shared/kitchen/model/vocabulary.ts";
import type { RefusalFact, Table } from "#shared/kitchen/model/refusal.ts";

type SetUpCommand = CommandOf<
  | "set-kitchen"
  | "add-person"
  | "set-role"
  | "remove-people"
  | "put-place"
  | "remove-place"
  | "put-tool"
  | "remove-tool"
  | "put-icing"
  | "remove-icing"
  | "put-design"
  | "remove-design"
  | "put-order"
  | "cancel-order"
  | "add-trays"
  | "remove-tray"
>;

/** The kitchen's furniture, recipes, orders and trays: what a lead sets up. */
export function decideSetUp(command: SetUpCommand, deciding: Deciding): Decision {
  const { kitchen, stamp } = deciding;
  switch (command.type) {
    case "set-kitchen": {
      const given = Object.fromEntries(
        Object.entries(command.settings).filter(([, value]) => value !== undefined),
      );
      return yes({ type: "settings-changed", ...stamp, settings: { ...kitchen.settings, ...given } });
    }
    case "add-person":
    case "set-role":
    case "remove-people":
      return decidePeople(command, deciding);
    case "put-place":
      return putPlace(command, deciding);
    case "remove-place": {
      const place = kitchen.places[command.placeId];
      if (place === undefined) return no("unknown", { code: "no-such", thing: "place", id: command.placeId });
      const there = aliveTrays(kitchen).filter((tray) => keepsRoom(tray, place.id));
      if (there.length > 0)
        return no("in-use", { code: "place-holds", place: place.name, trays: numbersOf(there) });
      const tool = Object.values(kitchen.tools).find((one) => one.placeId === place.id);
      if (tool !== undefined)
        return no("in-use", { code: "place-has-tool", place: place.name, tool: tool.name });
      return yes({ type: "place-removed", ...stamp, placeId: place.id });
    }
    case "put-tool":
      return putTool(command, deciding);
    case "remove-tool": {
      const tool = kitchen.tools[command.toolId];
      if (tool === undefined) return no("unknown", { code: "no-such", thing: "tool", id: command.toolId });
      if (tool.use.status === "on") return no("in-use", { code: "turn-off-first", tool: tool.name });
      const coldMs = coolsUntilMs(tool, deciding.nowMs);
      if (coldMs !== undefined) return no("in-use", { code: "still-hot", tool: tool.name, untilMs: coldMs });
      return yes({ type: "tool-removed", ...stamp, toolId: tool.id });
    }
    case "put-icing": {
      const twin = Object.values(kitchen.icings).find(
        (icing) => icing.id !== command.icing.id && sameName(icing.name, command.icing.name),
      );
      if (twin !== undefined) return no("taken", { code: "name-taken", thing: "icing", name: twin.name });
      return (
        full(kitchen.icings, command.icing.id, MOST.icings, "icing") ??
        yes({ type: "icing-put", ...stamp, icing: command.icing })
      );
    }
    case "remove-icing": {
      const icing = kitchen.icings[command.icingId];
      if (icing === undefined) return no("unknown", { code: "no-such", thing: "icing", id: command.icingId });
      const design = Object.values(kitchen.designs).find(({ layers }) =>
        layers.some(({ icingId }) => icingId === icing.id),
      );
      if (design !== undefined)
        return no("in-use", { code: "iced-with", design: design.name, icing: icing.name });
      if (Object.values(kitchen.batches).some(({ icingId }) => icingId === icing.id))
        return no("in-use", { code: "stands-mixed", icing: icing.name });
      return yes({ type: "icing-removed", ...stamp, icingId: icing.id });
    }
    case "put-design":
      return putDesign(command.design, deciding);
    case "remove-design": {
      const design = kitchen.designs[command.designId];
      if (design === undefined)
        return no("unknown", { code: "no-such", thing: "design", id: command.designId });
      const trays = Object.values(kitchen.trays).filter((tray) => tray.designId === design.id);
      if (trays.length > 0)
        return no("in-use", { code: "design-on-trays", design: design.name, trays: numbersOf(trays) });
      return yes({ type: "design-removed", ...stamp, designId: design.id });
    }
    case "put-order": {
      const { order } = command;
      if (command.isChange === true && kitchen.orders[order.id] === undefined)
        return no("unknown", { code: "order-not-here" });
      if (
        kitchen.orders[order.id] === undefined &&
        order.pickUpAtMs < deciding.nowMs &&
        command.isUndo !== true
      )
        return no("out-of-range", { code: "pick-up-past" });
      return (
        full(kitchen.orders, order.id, MOST.orders, "order") ?? yes({ type: "order-put", ...stamp, order })
      );
    }
    case "cancel-order": {
      const order = kitchen.orders[command.orderId];
      if (order === undefined) return no("unknown", { code: "no-such", thing: "order", id: command.orderId });
      const trays = aliveTrays(kitchen).filter((tray) => tray.orderId === order.id);
      if (trays.length > 0)
        return no("in-use", { code: "order-has-trays", order: order.name, trays: numbersOf(trays) });
      const packed = traysOf(kitchen, order.id);
      if (packed.length > 0 || order.putAway !== undefined)
        return no("in-use", {
          code: "order-packed",
          order: order.name,
          cookies: cookiesOnTrays(order, packed),
        });
      return yes({ type: "order-cancelled", ...stamp, orderId: order.id });
    }
    case "add-trays":
      return addTrays(command, deciding);
    case "remove-tray": {
      const tray = kitchen.trays[command.trayId];
      if (tray === undefined) return no("unknown", { code: "no-such", thing: "tray", id: command.trayId });
      if (tray.standing.stage !== "queued")
        return no("wrong-stage", { code: "has-icing", tray: tray.number });
      return yes({ type: "tray-removed", ...stamp, trayId: tray.id });
    }
    default:
      return unreachable(command);
  }
}

function putPlace({ place }: CommandOf<"put-place">, { kitchen, stamp }: Deciding): Decision {
  const twin = Object.values(kitchen.places).find(
    (one) => one.id !== place.id && sameName(one.name, place.name),
  );
  if (twin !== undefined) return no("taken", { code: "name-taken", thing: "place", name: twin.name });
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
  return full(kitchen.places, place.id, MOST.places, "place") ?? yes({ type: "place-put", ...stamp, place });
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

function putTool({ tool }: CommandOf<"put-tool">, { kitchen, stamp }: Deciding): Decision {
  const twin = Object.values(kitchen.tools).find(
    (one) => one.id !== tool.id && sameName(one.name, tool.name),
  );
  if (twin !== undefined) return no("taken", { code: "name-taken", thing: "tool", name: twin.name });
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
  return full(kitchen.tools, tool.id, MOST.tools, "tool") ?? yes({ type: "tool-put", ...stamp, tool });
}

function putDesign(design: Design, { kitchen, stamp }: Deciding): Decision {
  const stranger = design.layers.findIndex(({ icingId }) => kitchen.icings[icingId] === undefined);
  if (stranger >= 0)
    return no("unknown", { code: "must-name", field: `design.layers.${stranger}.icingId`, thing: "icing" });
  const before = kitchen.designs[design.id];
  const begun = Object.values(kitchen.trays).filter(
    (tray) => tray.designId === design.id && tray.deeds.length > 0,
  );
  if (
    before !== undefined &&
    begun.length > 0 &&
    JSON.stringify(before.layers) !== JSON.stringify(design.layers)
  )
    return no("in-use", { code: "design-in-use", design: before.name, trays: numbersOf(begun) });
  return (
    full(kitchen.designs, design.id, MOST.designs, "design") ?? yes({ type: "design-put", ...stamp, design })
  );
}

function addTrays({ trays }: CommandOf<"add-trays">, { kitchen, stamp }: Deciding): Decision {
  const alive = aliveTrays(kitchen);
  if (alive.length + trays.length > MOST.trays)
    return no("no-room", { code: "table-full", thing: "tray", most: MOST.trays });
  const numbers = new Set(alive.map((tray) => tray.number));
  const room = new Map<string, number>();
  for (const [index, plan] of trays.entries()) {
    const field = `trays.${index}`;
    if (kitchen.trays[plan.id] !== undefined || trays.findIndex(({ id }) => id === plan.id) !== index)
      return no("taken", { code: "tray-id-taken", field: `${field}.id` });
    if (numbers.has(plan.number)) return no("taken", { code: "tray-number-in-use", tray: plan.number });
    numbers.add(plan.number);
    if (kitchen.designs[plan.designId] === undefined)
      return no("unknown", { code: "must-name", field: `${field}.designId`, thing: "design" });
    if (kitchen.orders[plan.orderId] === undefined)
      return no("unknown", { code: "must-name", field: `${field}.orderId`, thing: "order" });
    const place = kitchen.places[plan.placeId];
    if (place === undefined)
      return no("unknown", { code: "must-name", field: `${field}.placeId`, thing: "place" });
    if (place.kind === "oven") return no("wrong-stage", { code: "is-oven-add", place: place.name });
    if (place.kind === "warm-cabinet")
      return no("wrong-stage", { code: "is-cabinet-add", place: place.name });
    const left = room.get(place.id) ?? roomLeft(kitchen, place.id);
    if (left <= 0) return noRoomIn(place);
    room.set(place.id, left - 1);
  }
  return yes(...trays.map((plan) => ({ type: "tray-added" as const, ...stamp, plan })));
}

const sameName = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** A refusal when a table is full and the thing is new. */
function full(
  table: Readonly<Record<string, unknown>>,
  id: string,
  most: number,
  thing: Table,
): Decision | undefined {
  if (table[id] !== undefined || Object.keys(table).length < most) return undefined;
  return no("no-room", { code: "table-full", thing, most });
}

const numbersOf = (trays: readonly { number: number }[]): number[] => trays.map(({ number }) => number);

/** A tool's figure out of its range, by the path of the field that was sent. */
const fieldFact = (thing: "place" | "tool", { min, max, unit }: ToolFault, field: string): RefusalFact => ({
  code: "field",
  field: `${thing}.${field}`,
  must: { is: "between", min, max, unit },
});
