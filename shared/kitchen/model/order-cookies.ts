import { goodOn, spoiledOn } from "./lookups.ts";
import type { OrderState, Tray } from "./state.ts";

// How many cookies an order has: on its trays, and on those that were archived.

/** Good cookies of an order on the trays it has or had. */
export const cookiesOnTrays = (order: OrderState, trays: readonly Tray[]): number =>
  Object.values(cookiesByDesign(order, trays)).reduce((sum, count) => sum + count, 0);

/** The same by design. */
export function cookiesByDesign(
  { archived = {} }: OrderState,
  trays: readonly Tray[],
): Readonly<Record<string, number>> {
  const cookies: Record<string, number> = { ...archived };
  for (const tray of trays) cookies[tray.designId] = (cookies[tray.designId] ?? 0) + goodOn(tray);
  return cookies;
}

/** Spoiled cookies of an order on the trays it has or had. */
export const spoiledOf = ({ archivedSpoiled = 0 }: OrderState, trays: readonly Tray[]): number =>
  trays.reduce((sum, tray) => sum + spoiledOn(tray), archivedSpoiled);

/** Cookies that an order lacks because they were spoiled: all of it was put on trays, and is not all good. */
export function spoiledShort(order: OrderState, trays: readonly Tray[]): number {
  const good = cookiesOnTrays(order, trays);
  const spoiled = spoiledOf(order, trays);
  return good + spoiled < order.cookies ? 0 : Math.max(0, order.cookies - good);
}

/** Whether as many good cookies as were ordered are packed; trays beyond that are not waited for. */
export const isOrderPacked = (order: OrderState, trays: readonly Tray[]): boolean =>
  cookiesOnTrays(
    order,
    trays.filter(({ status }) => status.stage === "packed"),
  ) >= order.cookies;

/** Whether an order goes: its last tray was archived, and its pick-up has passed, so that nothing of it is to come. */
export const isOver = (order: OrderState, trays: readonly Tray[], nowMs: number): boolean =>
  order.archived !== undefined && trays.length === 0 && order.pickUpAtMs <= nowMs;
