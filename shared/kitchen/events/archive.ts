import { byName } from "#shared/collections.ts";
import type { EventOf } from "#shared/kitchen/model/event.ts";
import { cookiesByDesign, isOver, secondsOf, spoiledOf } from "#shared/kitchen/model/order-cookies.ts";
import type { Kitchen, OrderState, Tray } from "#shared/kitchen/model/state.ts";
import { batchesUsed } from "./batches.ts";
import { layingOf } from "#shared/kitchen/tray/laying.ts";

/** Evidence of archived trays that is kept: enough for any posterior, little enough for a phone. */
const EVIDENCE_KEPT = 2000;
/** Layers timed on trays put away that are kept. */
const LAYING_KEPT = 200;

/** An order keeps what of it was archived, and goes once nothing of it is to come. */
export function archive(kitchen: Kitchen, event: EventOf<"trays-put-away">): Kitchen {
  const gone = new Set<string>(event.trayIds);
  const trays = Object.fromEntries(Object.entries(kitchen.trays).filter(([id]) => !gone.has(id)));
  const left = byName(Object.values(trays), ({ orderId }) => orderId);
  const away = event.trayIds.flatMap((id) => kitchen.trays[id] ?? []);
  const packed = byName(away, ({ orderId }) => orderId);
  const laying = away.flatMap((tray) => layingOf(kitchen.designs[tray.designId], tray));
  const orders = Object.fromEntries(
    Object.entries(kitchen.orders).flatMap(([orderId, before]) => {
      const own = packed.get(orderId);
      const order = own === undefined ? before : withPutAway(kitchen, before, own);
      return isOver(order, left.get(orderId) ?? [], event.atMs) ? [] : [[orderId, order]];
    }),
  );
  const used = new Set<string>(Object.values(trays).map(({ designId }) => designId));
  return {
    ...batchesUsed(kitchen, away),
    // An earlier version goes with its last tray.
    designs: Object.fromEntries(
      Object.entries(kitchen.designs).filter(
        ([id, { revisionOf }]) => revisionOf === undefined || used.has(id),
      ),
    ),
    trays,
    orders,
    evidence: [...kitchen.evidence, ...event.evidence].slice(-EVIDENCE_KEPT),
    laying: [...(kitchen.laying ?? []), ...laying].slice(-LAYING_KEPT),
  };
}

function withPutAway(kitchen: Kitchen, before: OrderState, own: readonly Tray[]): OrderState {
  const spoiled = spoiledOf(before, own);
  const seconds = secondsOf(before, own);
  const layers = own.reduce((sum, { films }) => sum + films.length, before.archivedLayers ?? 0);
  const { given: _stays, ...rest } = before;
  return {
    ...before,
    // What it was given or gave is kept apart.
    archived: cookiesByDesign(kitchen, rest, own),
    ...(spoiled > 0 && { archivedSpoiled: spoiled }),
    ...(seconds > 0 && { archivedSeconds: seconds }),
    ...(layers > 0 && { archivedLayers: layers }),
  };
}
