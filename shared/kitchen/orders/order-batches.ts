import { byName } from "#shared/collections.ts";
import { traysOf } from "#shared/kitchen/model/lookups.ts";
import type { BatchState, Kitchen, OrderState } from "#shared/kitchen/model/state.ts";
import { batchOfFilm } from "#shared/kitchen/tray/bowl.ts";

/** What is known of an order's icing: information, never that anything is absent. Texts are the kitchen's own. */
export interface OrderBatches {
  /** The order's own allergen words. */
  own?: string;
  /** Allergen words of its batches as their recipes said when they were mixed, each with the batches that bear them. */
  told: readonly { allergens: string; batches: readonly BatchState[] }[];
  /** Batches that no allergen words were recorded with. */
  untold: readonly BatchState[];
  /** Those that something was wrong with, with the numbers of the trays laid from them. */
  wrong: readonly { batch: BatchState; trays: readonly number[] }[];
  layersLaid: number;
  /** Layers laid of which no batch is recorded, or none is kept any more. */
  layersUnknown: number;
  layersToLay: number;
  /** Packed cookies from other orders: their icing is told there. */
  cookiesGiven: number;
}

export function orderBatches(kitchen: Kitchen, order: OrderState): OrderBatches {
  const uses = usesFor(kitchen, order);
  const trays = traysOf(kitchen, order.id);
  const planned = trays.reduce(
    (sum, { designId }) => sum + (kitchen.designs[designId]?.layers.length ?? 0),
    0,
  );
  const alive = trays.reduce((sum, { films }) => sum + films.length, 0);
  const layersLaid = alive + (order.archivedLayers ?? 0);
  const batches = [...uses.keys()].toSorted((a, b) => a.mixedAtMs - b.mixedAtMs || (a.id < b.id ? -1 : 1));
  const told = byName(
    batches.filter(({ allergens }) => allergens !== undefined),
    ({ allergens }) => allergens ?? "",
  );
  return {
    ...(order.allergens !== undefined && { own: order.allergens }),
    told: [...told].map(([allergens, bearing]) => ({ allergens, batches: bearing })),
    untold: batches.filter(({ allergens }) => allergens === undefined),
    wrong: batches
      .filter(({ wrong }) => wrong !== undefined)
      .map((batch) => ({ batch, trays: [...new Set(uses.get(batch))].toSorted((a, b) => a - b) })),
    layersLaid,
    layersUnknown: Math.max(0, layersLaid - [...uses.values()].reduce((sum, { length }) => sum + length, 0)),
    layersToLay: Math.max(0, planned - alive),
    cookiesGiven: Object.values(order.given ?? {}).reduce((sum, count) => sum + Math.max(0, count), 0),
  };
}

/** An order's batches, with the tray's number of each layer laid from them. */
function usesFor(kitchen: Kitchen, order: OrderState): Map<BatchState, number[]> {
  const uses = new Map<BatchState, number[]>();
  const add = (batch: BatchState, tray: number): void =>
    void uses.set(batch, [...(uses.get(batch) ?? []), tray]);
  for (const tray of traysOf(kitchen, order.id))
    for (const film of tray.films) {
      const batch = batchOfFilm(kitchen, film);
      if (batch !== undefined) add(batch, tray.number);
    }
  for (const batch of [...Object.values(kitchen.batches), ...Object.values(kitchen.usedBatches ?? {})])
    for (const use of batch.uses ?? []) if (use.orderId === order.id) add(batch, use.tray);
  return uses;
}
