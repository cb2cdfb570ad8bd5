import { asId, type DesignId } from "#shared/ids.ts";
import {
  cookiesByDesign,
  cookiesOnTrays,
  packedOver,
  secondsOf,
  spoiledOf,
} from "#shared/kitchen/model/order-cookies.ts";
import { originalOf, traysOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, OrderState, Tray } from "#shared/kitchen/model/state.ts";
import type { ProblemKind } from "#shared/kitchen/model/vocabulary.ts";
import { type BoxCount, boxCount, boxSize } from "./boxes.ts";

/** How an order's packing stands against its promise. */
export interface Packing {
  promised: number;
  /** Good ones that are packed. */
  packed: number;
  seconds: number;
  lost: number;
  /** What went wrong, the most first; of trays archived since nobody knows any more. */
  lostBy: readonly { problem: ProblemKind; count: number }[];
  /** Absent where it is not packed in boxes. */
  boxes?: BoxCount;
}

export function packingOf(kitchen: Kitchen, order: OrderState): Packing {
  const trays = traysOf(kitchen, order.id);
  const packed = cookiesOnTrays(order, trays.filter(isPacked));
  const size = boxSize(kitchen, order);
  return {
    promised: order.cookies,
    packed,
    seconds: secondsOf(order, trays),
    lost: spoiledOf(order, trays),
    lostBy: problemsOn(trays),
    ...(size !== undefined && { boxes: boxCount(size, order, packed) }),
  };
}

const isPacked = ({ status }: Tray): boolean => status.stage === "packed";

function problemsOn(trays: readonly Tray[]): Packing["lostBy"] {
  const counts = new Map<ProblemKind, number>();
  for (const { problem, count } of trays.flatMap(({ problems }) => problems))
    counts.set(problem, (counts.get(problem) ?? 0) + count);
  return [...counts].map(([problem, count]) => ({ problem, count })).toSorted((a, b) => b.count - a.count);
}

/** What an order has packed beyond its count could go to another that makes the same design. */
export interface Gift {
  designId: DesignId;
  to: OrderState;
  count: number;
  /** Cookies the other has not packed yet. */
  toPack: number;
  /** Of these, on no tray yet. */
  lacks: number;
}

/** To whom an order's over-count may go: those that lack cookies first, then by pick-up. */
export function giftsOf(kitchen: Kitchen, from: OrderState): Gift[] {
  const packed = cookiesByDesign(kitchen, from, traysOf(kitchen, from.id).filter(isPacked));
  return Object.keys(packed)
    .flatMap((key) => {
      const designId = asId<DesignId>(key);
      const over = packedOver(kitchen, from, designId);
      return over === 0 ? [] : Object.values(kitchen.orders).flatMap((to) => giftTo(to, designId, over));
    })
    .toSorted((a, b) => Number(b.lacks > 0) - Number(a.lacks > 0) || a.to.pickUpAtMs - b.to.pickUpAtMs);

  function giftTo(to: OrderState, designId: DesignId, over: number): Gift[] {
    if (to.id === from.id) return [];
    const trays = traysOf(kitchen, to.id);
    const known = cookiesByDesign(kitchen, to, []);
    const isSame =
      known[designId] !== undefined || trays.some((tray) => originalOf(kitchen, tray.designId) === designId);
    const toPack = to.cookies - cookiesOnTrays(to, trays.filter(isPacked));
    if (!isSame || toPack <= 0) return [];
    const lacks = Math.max(0, to.cookies - cookiesOnTrays(to, trays));
    return [{ designId, to, count: Math.min(over, toPack), toPack, lacks }];
  }
}
