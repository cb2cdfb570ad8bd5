import { TOOL_DEFAULTS, toolFault } from "#shared/heat/tool.ts";
import { MOST } from "#shared/limits.ts";
import { unreachable } from "#shared/outcome.ts";
import { formatTemp, isHotterAsRead, withKitchenUnits } from "#shared/units.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { decidePeople } from "./people.ts";
import { no, noRoomIn, yes, type Deciding, type Decision } from "./deciding.ts";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import {
  cookiesOnTrays,
  traysOf,
  aliveTrays,
  keepsRoom,
  roomLeft,
  trayUnder,
  type Kitchen,
} from "#shared/kitchen/model/state.ts";
import { coolsUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import type { Design, Place } from "#shared/kitchen/model/vocabulary.ts";
import { clockTime, cookies } from "#shared/words/wording.ts";

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
      if (place === undefined) return no("unknown", `There is no place with the id ${command.placeId}.`);
      const there = aliveTrays(kitchen).filter((tray) => keepsRoom(tray, place.id));
      if (there.length > 0)
        return no("in-use", `${place.name} still holds ${trayNumbers(there)}: move them first.`);
      const tool = Object.values(kitchen.tools).find((one) => one.placeId === place.id);
      if (tool !== undefined)
        return no("in-use", `${place.name} is where ${tool.name} is: remove the tool first.`);
      return yes({ type: "place-removed", ...stamp, placeId: place.id });
    }
    case "put-tool":
      return putTool(command, deciding);
    case "remove-tool": {
      const tool = kitchen.tools[command.toolId];
      if (tool === undefined) return no("unknown", `There is no tool with the id ${command.toolId}.`);
      if (tool.use.status === "on") return no("in-use", `${tool.name} is on: say it is off first.`);
      const coldMs = coolsUntilMs(tool, deciding.nowMs);
      if (coldMs !== undefined)
        return no(
          "in-use",
          `${tool.name} is hot until about ${clockTime(coldMs, kitchen.settings.timeZone)}: remove it once it has cooled.`,
        );
      return yes({ type: "tool-removed", ...stamp, toolId: tool.id });
    }
    case "put-icing": {
      const twin = Object.values(kitchen.icings).find(
        (icing) => icing.id !== command.icing.id && sameName(icing.name, command.icing.name),
      );
      if (twin !== undefined) return no("taken", `There is an icing called ${twin.name} already.`);
      return (
        full(kitchen.icings, command.icing.id, MOST.icings, "icings") ??
        yes({ type: "icing-put", ...stamp, icing: command.icing })
      );
    }
    case "remove-icing": {
      const icing = kitchen.icings[command.icingId];
      if (icing === undefined) return no("unknown", `There is no icing with the id ${command.icingId}.`);
      const design = Object.values(kitchen.designs).find(({ layers }) =>
        layers.some(({ icingId }) => icingId === icing.id),
      );
      if (design !== undefined)
        return no("in-use", `${design.name} is iced with ${icing.name}: change the design first.`);
      if (Object.values(kitchen.batches).some(({ icingId }) => icingId === icing.id))
        return no("in-use", `${icing.name} stands mixed: say that its batches are used up first.`);
      return yes({ type: "icing-removed", ...stamp, icingId: icing.id });
    }
    case "put-design":
      return putDesign(command.design, deciding);
    case "remove-design": {
      const design = kitchen.designs[command.designId];
      if (design === undefined) return no("unknown", `There is no design with the id ${command.designId}.`);
      const trays = Object.values(kitchen.trays).filter((tray) => tray.designId === design.id);
      if (trays.length > 0)
        return no(
          "in-use",
          `${design.name} is on ${trayNumbers(trays)}: it can go once they are packed and put away.`,
        );
      return yes({ type: "design-removed", ...stamp, designId: design.id });
    }
    case "put-order": {
      const { order } = command;
      if (command.isChange === true && kitchen.orders[order.id] === undefined)
        return no("unknown", "That order is not here any more: it was packed and put away, or cancelled.");
      if (
        kitchen.orders[order.id] === undefined &&
        order.pickUpAtMs < deciding.nowMs &&
        command.isUndo !== true
      )
        return no(
          "out-of-range",
          "order.pickUpAtMs lies in the past: a new order's pick-up must be still to come.",
        );
      return (
        full(kitchen.orders, order.id, MOST.orders, "orders") ?? yes({ type: "order-put", ...stamp, order })
      );
    }
    case "cancel-order": {
      const order = kitchen.orders[command.orderId];
      if (order === undefined) return no("unknown", `There is no order with the id ${command.orderId}.`);
      const trays = aliveTrays(kitchen).filter((tray) => tray.orderId === order.id);
      if (trays.length > 0)
        return no("in-use", `${order.name} still has ${trayNumbers(trays)}: pack or remove them first.`);
      const packed = traysOf(kitchen, order.id);
      if (packed.length > 0 || order.putAway !== undefined)
        return no(
          "in-use",
          `${cookies(cookiesOnTrays(order, packed))} of ${order.name} are packed, and would belong to no order: change how many it wants instead.`,
        );
      return yes({ type: "order-cancelled", ...stamp, orderId: order.id });
    }
    case "add-trays":
      return addTrays(command, deciding);
    case "remove-tray": {
      const tray = kitchen.trays[command.trayId];
      if (tray === undefined) return no("unknown", `There is no tray with the id ${command.trayId}.`);
      if (tray.standing.stage !== "queued")
        return no(
          "wrong-stage",
          `Tray ${tray.number} has icing on it: only a tray still waiting to be flooded can be removed.`,
        );
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
  if (twin !== undefined) return no("taken", `There is a place called ${twin.name} already.`);
  const fixed = fixedIn(kitchen, place);
  if (fixed !== undefined) return fixed;
  if (place.kind === "oven" || place.kind === "warm-cabinet") {
    if (place.setTempC === undefined)
      return no(
        "out-of-range",
        `place.setTempC is missing: ${place.name} needs the temperature it is set to.`,
      );
    const fault = toolFault({
      ...TOOL_DEFAULTS[place.kind],
      airC: place.setTempC,
      airSpeedMs: place.airSpeedMs,
    });
    if (fault !== undefined)
      return no(
        "out-of-range",
        withKitchenUnits(`place.${fault.replace("airC", "setTempC")}`, kitchen.settings.units),
      );
    const cooler = Object.values(kitchen.tools).find(
      ({ placeId, maxAirC }) =>
        placeId === place.id && isHotterAsRead(place.setTempC ?? 0, maxAirC, kitchen.settings.units),
    );
    if (cooler !== undefined)
      return no(
        "out-of-range",
        `place.setTempC must be at most ${formatTemp(cooler.maxAirC, kitchen.settings.units)}: ${cooler.name} may never be hotter.`,
      );
  } else if (place.setTempC !== undefined) {
    return no(
      "out-of-range",
      `place.setTempC is for ovens and warm cabinets: a ${place.kind} has the room's temperature.`,
    );
  }
  if (
    place.airFrom === place.id ||
    (place.airFrom !== undefined && kitchen.places[place.airFrom] === undefined)
  )
    return no("unknown", "place.airFrom must be another place of this kitchen.");
  return full(kitchen.places, place.id, MOST.places, "places") ?? yes({ type: "place-put", ...stamp, place });
}

/** What of a place its tools hold fast: its kind, and all that a heat-set under way was told by. */
function fixedIn(kitchen: Kitchen, place: Place): Decision | undefined {
  const before = kitchen.places[place.id];
  if (before === undefined) return undefined;
  for (const tool of Object.values(kitchen.tools).filter(({ placeId }) => placeId === place.id)) {
    const under = trayUnder(kitchen, tool.id);
    const field = (["kind", "setTempC", "airSpeedMs"] as const).find((one) => before[one] !== place[one]);
    if (field !== undefined && under !== undefined)
      return no(
        "in-use",
        `place.${field} can be changed once tray ${under.number} is out of ${tool.name}: end its heat-set first.`,
      );
    if (field === "kind")
      return no(
        "in-use",
        `place.kind must be ${before.kind} while ${tool.name} is there: remove the tool first.`,
      );
  }
  return undefined;
}

function putTool({ tool }: CommandOf<"put-tool">, { kitchen, stamp }: Deciding): Decision {
  const twin = Object.values(kitchen.tools).find(
    (one) => one.id !== tool.id && sameName(one.name, tool.name),
  );
  if (twin !== undefined) return no("taken", `There is a tool called ${twin.name} already.`);
  const before = kitchen.tools[tool.id];
  const under = trayUnder(kitchen, tool.id);
  if (under !== undefined && (before?.kind !== tool.kind || before.placeId !== tool.placeId))
    return no(
      "in-use",
      `${tool.name} is over tray ${under.number}: its kind can be changed once that heat-set has ended.`,
    );
  const place = kitchen.places[tool.placeId ?? ""];
  if (tool.kind !== "hot-air" && place?.kind !== tool.kind)
    return no(
      "unknown",
      `tool.placeId must name the ${tool.kind === "oven" ? "oven" : "warm cabinet"} among the places that this tool is.`,
    );
  const fault = toolFault(heatToolOf(kitchen, tool));
  if (fault !== undefined)
    return no("out-of-range", withKitchenUnits(`tool.${fault}`, kitchen.settings.units));
  const { airC } = heatToolOf(kitchen, tool);
  const temp = (tempC: number): string => formatTemp(tempC, kitchen.settings.units);
  if (isHotterAsRead(airC, tool.maxAirC, kitchen.settings.units))
    return no(
      "out-of-range",
      `tool.maxAirC must be at least ${temp(airC)}, the air ${tool.name} is set to: got ${temp(tool.maxAirC)}.`,
    );
  return full(kitchen.tools, tool.id, MOST.tools, "tools") ?? yes({ type: "tool-put", ...stamp, tool });
}

function putDesign(design: Design, { kitchen, stamp }: Deciding): Decision {
  const stranger = design.layers.findIndex(({ icingId }) => kitchen.icings[icingId] === undefined);
  if (stranger >= 0)
    return no("unknown", `design.layers.${stranger}.icingId must name one of the kitchen's icings.`);
  const before = kitchen.designs[design.id];
  const begun = Object.values(kitchen.trays).filter(
    (tray) => tray.designId === design.id && tray.deeds.length > 0,
  );
  if (
    before !== undefined &&
    begun.length > 0 &&
    JSON.stringify(before.layers) !== JSON.stringify(design.layers)
  )
    return no(
      "in-use",
      `${before.name} is being iced on ${trayNumbers(begun)}: save the changed layers as a new design.`,
    );
  return (
    full(kitchen.designs, design.id, MOST.designs, "designs") ?? yes({ type: "design-put", ...stamp, design })
  );
}

function addTrays({ trays }: CommandOf<"add-trays">, { kitchen, stamp }: Deciding): Decision {
  const alive = aliveTrays(kitchen);
  if (alive.length + trays.length > MOST.trays)
    return no("no-room", `A kitchen holds at most ${MOST.trays} trays at once.`);
  const numbers = new Set(alive.map((tray) => tray.number));
  const room = new Map<string, number>();
  for (const [index, plan] of trays.entries()) {
    const field = `trays.${index}`;
    if (kitchen.trays[plan.id] !== undefined || trays.findIndex(({ id }) => id === plan.id) !== index)
      return no("taken", `${field}.id is another tray's already.`);
    if (numbers.has(plan.number))
      return no("taken", `Tray ${plan.number} is in use: it is free again once packed.`);
    numbers.add(plan.number);
    if (kitchen.designs[plan.designId] === undefined)
      return no("unknown", `${field}.designId must name one of the kitchen's designs.`);
    if (kitchen.orders[plan.orderId] === undefined)
      return no("unknown", `${field}.orderId must name one of the kitchen's orders.`);
    const place = kitchen.places[plan.placeId];
    if (place === undefined) return no("unknown", `${field}.placeId must name one of the kitchen's places.`);
    if (place.kind === "oven")
      return no("wrong-stage", `${place.name} is an oven: a tray comes there by a heat-set.`);
    if (place.kind === "warm-cabinet")
      return no("wrong-stage", `${place.name} is a warm cabinet: a tray is moved there once it is iced.`);
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
  what: string,
): Decision | undefined {
  if (table[id] !== undefined || Object.keys(table).length < most) return undefined;
  return no("no-room", `A kitchen holds at most ${most} ${what}.`);
}

function trayNumbers(trays: readonly { number: number }[]): string {
  const shown = trays.slice(0, 4).map(({ number }) => number);
  const more = trays.length - shown.length;
  return `tray${trays.length === 1 ? "" : "s"} ${shown.join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}
