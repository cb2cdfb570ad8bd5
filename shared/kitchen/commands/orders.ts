import { cookiesOnTrays, packedOver } from "#shared/kitchen/model/order-cookies.ts";
import { MOST } from "#shared/limits.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { numbersOf, tableFull } from "./checks.ts";
import { no, noRoomIn, yes, type Deciding, type Decision } from "./deciding.ts";
import { aliveTrays, originalOf, roomLeft, traysOf } from "#shared/kitchen/model/lookups.ts";

/** Orders, and the trays on which they are made. */
export function putOrder(command: CommandOf<"put-order">, { kitchen, stamp, nowMs }: Deciding): Decision {
  const { order } = command;
  if (command.isChange === true && kitchen.orders[order.id] === undefined)
    return no("unknown", { code: "order-not-here" });
  if (kitchen.orders[order.id] === undefined && order.pickUpAtMs < nowMs && command.isUndo !== true)
    return no("out-of-range", { code: "pick-up-past" });
  return (
    tableFull(kitchen.orders, order.id, MOST.orders, "order") ?? yes({ type: "order-put", ...stamp, order })
  );
}

export function cancelOrder(command: CommandOf<"cancel-order">, { kitchen, stamp }: Deciding): Decision {
  const order = kitchen.orders[command.orderId];
  if (order === undefined) return no("unknown", { code: "no-such", thing: "order", id: command.orderId });
  const trays = aliveTrays(kitchen).filter((tray) => tray.orderId === order.id);
  if (trays.length > 0)
    return no("in-use", { code: "order-has-trays", order: order.name, trays: numbersOf(trays) });
  const packed = traysOf(kitchen, order.id);
  if (packed.length > 0 || order.archived !== undefined)
    return no("in-use", {
      code: "order-packed",
      order: order.name,
      cookies: cookiesOnTrays(order, packed),
    });
  return yes({ type: "order-cancelled", ...stamp, orderId: order.id });
}

/** What an order has packed beyond what was ordered may go to another that lacks it. */
export function giveCookies(
  { fromId, toId, designId, count, isUndo }: CommandOf<"give-cookies">,
  { kitchen, stamp }: Deciding,
): Decision {
  const from = kitchen.orders[fromId];
  const to = kitchen.orders[toId];
  if (from === undefined) return no("unknown", { code: "no-such", thing: "order", id: fromId });
  if (to === undefined) return no("unknown", { code: "no-such", thing: "order", id: toId });
  if (fromId === toId) return no("out-of-range", { code: "gives-itself", order: from.name });
  const has =
    isUndo === true
      ? (from.given?.[designId] ?? 0)
      : packedOver(kitchen, from, originalOf(kitchen, designId));
  if (count > has)
    return no("out-of-range", { code: "has-fewer-over", order: from.name, count: Math.max(0, has) });
  return yes({ type: "cookies-given", ...stamp, fromId, toId, designId, count });
}

export function addTrays({ trays }: CommandOf<"add-trays">, { kitchen, stamp }: Deciding): Decision {
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

export function removeTray(command: CommandOf<"remove-tray">, { kitchen, stamp }: Deciding): Decision {
  const tray = kitchen.trays[command.trayId];
  if (tray === undefined) return no("unknown", { code: "no-such", thing: "tray", id: command.trayId });
  if (tray.status.stage !== "queued") return no("wrong-stage", { code: "has-icing", tray: tray.number });
  return yes({ type: "tray-removed", ...stamp, trayId: tray.id });
}
