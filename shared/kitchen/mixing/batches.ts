import type { BatchState, Kitchen } from "#shared/kitchen/model/state.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import { DAY_MS } from "#shared/time.ts";

/** Which batches: those of one icing in one consistency. */
export interface Kind {
  icingId: string;
  consistency: Consistency;
}

/** A use-by lies at most this long after mixing: longer is more likely a slip of the finger than a plan. */
export const LONGEST_USE_MS = 14 * DAY_MS;
/** How long past its use-by a batch stays on the screens. */
export const PUT_AWAY_AFTER_MS = DAY_MS;

export const isPast = ({ useByAtMs }: Pick<BatchState, "useByAtMs">, nowMs: number): boolean =>
  nowMs > useByAtMs;

/** Whether a batch has been past its use-by for so long that nobody speaks of it any more. */
export const isArchived = ({ useByAtMs }: BatchState, nowMs: number): boolean =>
  nowMs - useByAtMs > PUT_AWAY_AFTER_MS;

/** What is mixed of a kind, the first to be used first. */
export const batchesOf = (kitchen: Kitchen, { icingId, consistency }: Kind): BatchState[] =>
  Object.values(kitchen.batches)
    .filter((batch) => batch.icingId === icingId && batch.consistency === consistency)
    .toSorted((a, b) => a.useByAtMs - b.useByAtMs || (a.id < b.id ? -1 : 1));

/** The mass of those of them that were weighed and are not past their use-by, g. */
export const inDateG = (batches: readonly BatchState[], nowMs: number): number =>
  batches.reduce((sum, batch) => sum + (isPast(batch, nowMs) ? 0 : (batch.massG ?? 0)), 0);

/** Where all that is mixed of a kind is past its use-by: the batch of them that was good the longest. */
export function tooOld(kitchen: Kitchen, kind: Kind, nowMs: number): BatchState | undefined {
  const last = batchesOf(kitchen, kind).at(-1);
  return last !== undefined && isPast(last, nowMs) ? last : undefined;
}

/** A kind by its icing's name. */
export interface MixedKind {
  icing: string | undefined;
  consistency: Consistency;
}

export const nameOf = (kitchen: Kitchen, { icingId, consistency }: Kind): MixedKind => ({
  icing: kitchen.icings[icingId]?.name,
  consistency,
});
