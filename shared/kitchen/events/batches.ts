import { MOST } from "#shared/limits.ts";
import type { EventOf } from "#shared/kitchen/model/event.ts";
import { batchOf } from "#shared/kitchen/model/lookups.ts";
import type { BatchState, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { useOf } from "#shared/kitchen/tray/bowl.ts";
import { without } from "./tables.ts";

/** Uses that are kept of one batch. */
const USES_KEPT = 100;

/** A batch stands: mixed, or said by mistake to be used up. */
export function batchMixed(kitchen: Kitchen, { batch, by }: EventOf<"batch-mixed">): Kitchen {
  const { goneAtMs: _gone, ...before } = kitchen.usedBatches?.[batch.id] ?? {};
  return {
    ...kitchen,
    batches: { ...kitchen.batches, [batch.id]: { ...before, ...batch, by } },
    ...(kitchen.usedBatches !== undefined && { usedBatches: without(kitchen.usedBatches, batch.id) }),
  };
}

/** Batches that stand no more are kept for tracing, the newest of them. */
export function batchesGone(kitchen: Kitchen, batchIds: readonly string[], atMs: number): Kitchen {
  const gone = batchIds.flatMap((id) => kitchen.batches[id] ?? []);
  if (gone.length === 0) return kitchen;
  const used = [
    ...Object.values(kitchen.usedBatches ?? {}),
    ...gone.map((batch) => ({ ...batch, goneAtMs: atMs })),
  ];
  const kept = used.toSorted((a, b) => a.goneAtMs - b.goneAtMs).slice(-MOST.usedBatches);
  return {
    ...kitchen,
    batches: batchIds.reduce<Kitchen["batches"]>(without, kitchen.batches),
    usedBatches: Object.fromEntries(kept.map((batch) => [batch.id, batch])),
  };
}

export function batchJudged(
  kitchen: Kitchen,
  { batchId, wrong: why, atMs, by }: EventOf<"batch-judged">,
): Kitchen {
  return withBatch(kitchen, batchId, (batch) => {
    const { wrong: _before, ...rest } = batch;
    return why === null ? rest : { ...batch, wrong: { why, atMs, by } };
  });
}

/** Archived trays leave with the batches what was laid from them. */
export function batchesUsed(kitchen: Kitchen, trays: readonly Tray[]): Kitchen {
  return trays
    .flatMap((tray) => tray.films.map((film) => ({ tray, film })))
    .reduce(
      (before, { tray, film }) =>
        withBatch(before, film.bowl?.id ?? "", (batch) => ({
          ...batch,
          uses: [...(batch.uses ?? []), useOf(kitchen, tray, film)].slice(-USES_KEPT),
        })),
      kitchen,
    );
}

function withBatch(kitchen: Kitchen, batchId: string, change: (batch: BatchState) => BatchState): Kitchen {
  const batch = batchOf(kitchen, batchId);
  if (batch === undefined) return kitchen;
  const after = change(batch);
  if ("goneAtMs" in batch) {
    const used = { ...after, goneAtMs: batch.goneAtMs };
    return { ...kitchen, usedBatches: { ...kitchen.usedBatches, [batchId]: used } };
  }
  return { ...kitchen, batches: { ...kitchen.batches, [batchId]: after } };
}
