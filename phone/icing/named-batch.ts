import { nameOf } from "#shared/kitchen/mixing/batches.ts";
import type { BatchState, Kitchen } from "#shared/kitchen/model/state.ts";
import type { NamedBatch } from "#shared/words/en/trace.ts";

/** A batch as a sentence names it. */
export const namedBatch = (kitchen: Kitchen, batch: BatchState): NamedBatch => ({
  of: nameOf(kitchen, batch),
  mixedAtMs: batch.mixedAtMs,
});
