import { byName } from "#shared/kitchen/model/by-name.ts";
import type { EventOf } from "#shared/kitchen/model/event.ts";
import { cookiesByDesign, isOver, spoiledOf } from "#shared/kitchen/model/order-cookies.ts";
import type { Kitchen, OrderState, Tray } from "#shared/kitchen/model/state.ts";

/** Evidence of archived trays that is kept: enough for any posterior, little enough for a phone. */
const EVIDENCE_KEPT = 2000;

/** An order keeps what of it was archived, and goes once nothing of it is to come. */
export function archive(kitchen: Kitchen, event: EventOf<"trays-put-away">): Kitchen {
  const gone = new Set<string>(event.trayIds);
  const trays = Object.fromEntries(Object.entries(kitchen.trays).filter(([id]) => !gone.has(id)));
  const left = byName(Object.values(trays), ({ orderId }) => orderId);
  const packed = byName(
    event.trayIds.flatMap((id) => kitchen.trays[id] ?? []),
    ({ orderId }) => orderId,
  );
  const orders = Object.fromEntries(
    Object.entries(kitchen.orders).flatMap(([orderId, before]) => {
      const own = packed.get(orderId);
      const order = own === undefined ? before : withPutAway(before, own);
      return isOver(order, left.get(orderId) ?? [], event.atMs) ? [] : [[orderId, order]];
    }),
  );
  return {
    ...kitchen,
    trays,
    orders,
    evidence: [...kitchen.evidence, ...event.evidence].slice(-EVIDENCE_KEPT),
  };
}

function withPutAway(before: OrderState, own: readonly Tray[]): OrderState {
  const spoiled = spoiledOf(before, own);
  const archived = cookiesByDesign(before, own);
  return { ...before, archived, ...(spoiled === 0 ? {} : { archivedSpoiled: spoiled }) };
}
