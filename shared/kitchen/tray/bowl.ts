import { batchOf } from "#shared/kitchen/model/lookups.ts";
import type { BatchState, BatchUse, Film, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Bowl, Layer } from "#shared/kitchen/model/vocabulary.ts";
import { HOUR_MS } from "#shared/time.ts";

/** Icing of one colour and consistency laid within so long is taken to be out of one bowl, where no batch is recorded. */
const BOWL_LASTS_MS = HOUR_MS;
/** What a bowl is called that no batch tells of: no batch's id begins like that. */
const UNRECORDED = "~";

type Kind = Pick<Layer, "icingId" | "consistency">;

/** The bowl that a layer laid now comes from: the batch mixed last that may still be used, else what others of its colour came from. */
export function bowlAt(kitchen: Kitchen, kind: Kind, atMs: number): Bowl {
  const batch = Object.values(kitchen.batches)
    .filter((one) => isOf(one, kind) && one.mixedAtMs <= atMs && one.useByAtMs >= atMs)
    .toSorted((a, b) => b.mixedAtMs - a.mixedAtMs || (a.id < b.id ? -1 : 1))[0];
  if (batch !== undefined)
    return { id: batch.id, ...(batch.closesS === undefined ? {} : { closesS: batch.closesS }) };
  return { id: unrecorded(kitchen, kind, atMs) ?? `${UNRECORDED}${kind.icingId} ${atMs}` };
}

const isOf = (one: Kind, { icingId, consistency }: Kind): boolean =>
  one.icingId === icingId && one.consistency === consistency;

/** The bowl begun last that can still have lasted. */
function unrecorded(kitchen: Kitchen, kind: Kind, atMs: number): string | undefined {
  const begunMs = new Map<string, number>();
  for (const { designId, films } of Object.values(kitchen.trays))
    for (const { bowl, layer, clockStartMs } of films) {
      const own = kitchen.designs[designId]?.layers[layer];
      if (own === undefined || !isOf(own, kind) || bowl?.id.startsWith(UNRECORDED) !== true) continue;
      begunMs.set(bowl.id, Math.min(begunMs.get(bowl.id) ?? Infinity, clockStartMs));
    }
  return [...begunMs]
    .filter(([, fromMs]) => fromMs <= atMs && atMs - fromMs <= BOWL_LASTS_MS)
    .toSorted(([a, aMs], [b, bMs]) => bMs - aMs || (a < b ? -1 : 1))[0]?.[0];
}

/** The batch a film was laid from, where one was recorded and is still kept. */
export const batchOfFilm = (kitchen: Kitchen, { bowl }: Pick<Film, "bowl">): BatchState | undefined =>
  bowl === undefined ? undefined : batchOf(kitchen, bowl.id);

/** What is said of a layer laid from a batch. */
export const useOf = (kitchen: Kitchen, tray: Tray, film: Film): BatchUse => ({
  tray: tray.number,
  orderId: tray.orderId,
  order: kitchen.orders[tray.orderId]?.name ?? "",
  design: kitchen.designs[tray.designId]?.name ?? "",
  layer: film.layer,
  laidAtMs: film.clockStartMs,
});
