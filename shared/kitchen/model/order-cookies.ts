import { goodOn, originalOf, secondsOn, spoiledOn, traysOf } from "./lookups.ts";
import type { Kitchen, OrderState, Tray } from "./state.ts";

// How many cookies an order has: on its trays, and on those that were archived.

/** Good cookies of an order on the trays it has or had. */
export function cookiesOnTrays({ archived = {}, given = {} }: OrderState, trays: readonly Tray[]): number {
  const counts = [...Object.values(archived), ...Object.values(given), ...trays.map(goodOn)];
  return counts.reduce((sum, count) => sum + count, 0);
}

/** The same by design, whichever version of it a tray was begun by. */
export function cookiesByDesign(
  kitchen: Pick<Kitchen, "designs">,
  { archived = {}, given = {} }: OrderState,
  trays: readonly Tray[],
): Readonly<Record<string, number>> {
  const cookies: Record<string, number> = { ...archived };
  const add = (designId: string, count: number): void => {
    cookies[designId] = (cookies[designId] ?? 0) + count;
  };
  for (const [designId, count] of Object.entries(given)) add(designId, count);
  for (const tray of trays) add(originalOf(kitchen, tray.designId), goodOn(tray));
  return cookies;
}

/** Cookies of an order that were sold as seconds. */
export const secondsOf = ({ archivedSeconds = 0 }: OrderState, trays: readonly Tray[]): number =>
  trays.reduce((sum, tray) => sum + secondsOn(tray), archivedSeconds);

/** Spoiled cookies of an order on the trays it has or had. */
export const spoiledOf = ({ archivedSpoiled = 0 }: OrderState, trays: readonly Tray[]): number =>
  trays.reduce((sum, tray) => sum + spoiledOn(tray), archivedSpoiled);

/** Cookies that an order lacks because they were not good: all of it was put on trays. */
export function spoiledShort(order: OrderState, trays: readonly Tray[]): number {
  const good = cookiesOnTrays(order, trays);
  const lost = spoiledOf(order, trays) + secondsOf(order, trays);
  return good + lost < order.cookies ? 0 : Math.max(0, order.cookies - good);
}

/** Whether as many good cookies as were ordered are packed; trays beyond that are not waited for. */
export const isOrderPacked = (order: OrderState, trays: readonly Tray[]): boolean =>
  cookiesOnTrays(
    order,
    trays.filter(({ status }) => status.stage === "packed"),
  ) >= order.cookies;

/** Good cookies of a design that an order has packed beyond all it needs. */
export function packedOver(kitchen: Kitchen, order: OrderState, designId: string): number {
  const packed = traysOf(kitchen, order.id).filter(({ status }) => status.stage === "packed");
  const over = cookiesOnTrays(order, packed) - order.cookies;
  return Math.max(0, Math.min(over, cookiesByDesign(kitchen, order, packed)[designId] ?? 0));
}

/** Whether an order goes: its last tray was archived, and its pick-up has passed, so that nothing of it is to come. */
export const isOver = (order: OrderState, trays: readonly Tray[], nowMs: number): boolean =>
  order.archived !== undefined && trays.length === 0 && order.pickUpAtMs <= nowMs;
