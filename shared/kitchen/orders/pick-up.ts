import { doneInOneGoMs, nextClosingMs, workedMs } from "#shared/kitchen/model/opening-hours.ts";
import type { OrderForecast } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen, OrderState, Tray } from "#shared/kitchen/model/state.ts";
import { cookiesOnTrays, spoiledShort } from "#shared/kitchen/model/order-cookies.ts";
import type { Order } from "#shared/kitchen/model/vocabulary.ts";
import { HOUR_MS, MIN_MS } from "#shared/time.ts";

/** A pick-up so long past is nobody's matter any more. */
const PAST_MS = 48 * HOUR_MS;

/** Whether a pick-up is so long past that nobody is told of it. */
export const isLongPast = ({ pickUpAtMs }: Order, nowMs: number): boolean => nowMs - pickUpAtMs > PAST_MS;

/**
 * The closing an order must be packed before, dry through as it is at this moment: packed after it, at the next opening, it
 * would miss its pick-up. Undefined where it would not, and where the pick-up itself comes first.
 */
export function packBeforeMs(
  { settings }: Kitchen,
  { pickUpAtMs }: Order,
  finishMs: number,
  nowMs: number,
): number | undefined {
  const closesMs = nextClosingMs(settings, Math.max(nowMs, finishMs));
  if (closesMs >= pickUpAtMs) return undefined;
  return workedMs(settings, closesMs, settings.packingMin * MIN_MS) > pickUpAtMs ? closesMs : undefined;
}

/** How long an order's likeliest finish leaves hands to come and pack it. */
export interface Slack {
  min: number;
  /** The closing that ends it. */
  beforeMs?: number;
}

/** Its spare time, or what is left of it before a closing it must be packed before. Undefined while it is not known. */
export function slackOf(
  kitchen: Kitchen,
  order: Order,
  outlook: OrderForecast | undefined,
  nowMs: number,
): Slack | undefined {
  if (outlook?.spareMin === undefined || "never" in outlook.finish) return undefined;
  const { finish, spareMin } = outlook;
  const beforeMs = packBeforeMs(kitchen, order, finish.likelyMs, nowMs);
  if (beforeMs === undefined || spareMin < 0) return { min: spareMin };
  const untilMin =
    Math.floor((beforeMs - Math.max(nowMs, finish.likelyMs)) / MIN_MS) - kitchen.settings.packingMin;
  return { min: Math.min(spareMin, untilMin), beforeMs };
}

/** Cookies of an order that are not good on a tray. */
export interface OffTrays {
  cookies: number;
  /** So many minutes late they are at least, begun now and however soon they dry; absent where they need not be. */
  shortMin?: number;
  /** They were on trays, and spoiled. */
  areSpoiled: boolean;
}

/** Undefined where every cookie is, or was, good on a tray. */
export function offTraysOf(
  kitchen: Kitchen,
  order: OrderState,
  trays: readonly Tray[],
  nowMs: number,
): OffTrays | undefined {
  const cookies = order.cookies - cookiesOnTrays(order, trays);
  if (cookies <= 0) return undefined;
  const areSpoiled = spoiledShort(order, trays) > 0;
  const laidMs = doneInOneGoMs(kitchen.settings, nowMs, kitchen.settings.floodingMin * MIN_MS);
  const spareMin = spareAfterPacking(kitchen, order, laidMs, nowMs);
  return spareMin < 0 && !isLongPast(order, nowMs)
    ? { cookies, areSpoiled, shortMin: -spareMin }
    : { cookies, areSpoiled };
}

/**
 * Minutes left before pick-up once what is dry through at this moment is packed too; negative is short. Packing that is not
 * done by closing goes on at the next opening: some trays are packed, the others not.
 */
export function spareAfterPacking(
  { settings }: Kitchen,
  { pickUpAtMs }: Order,
  finishMs: number,
  nowMs: number,
): number {
  const packedMs = workedMs(settings, Math.max(nowMs, finishMs), settings.packingMin * MIN_MS);
  return Math.round((pickUpAtMs - packedMs) / MIN_MS);
}
