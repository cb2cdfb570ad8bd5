import { dayAndMinute } from "#shared/kitchen/model/calendar.ts";
import type { BatchState, Kitchen } from "#shared/kitchen/model/state.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import { clockTime, dayTime } from "#shared/words/wording.ts";
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
export const isPutAway = ({ useByAtMs }: BatchState, nowMs: number): boolean =>
  nowMs - useByAtMs > PUT_AWAY_AFTER_MS;

/** What stands mixed of a kind, the first to be used first. */
export const batchesOf = (kitchen: Kitchen, { icingId, consistency }: Kind): BatchState[] =>
  Object.values(kitchen.batches)
    .filter((batch) => batch.icingId === icingId && batch.consistency === consistency)
    .toSorted((a, b) => a.useByAtMs - b.useByAtMs || (a.id < b.id ? -1 : 1));

/** The mass of those of them that were weighed and are not past their use-by, g. */
export const inDateG = (batches: readonly BatchState[], nowMs: number): number =>
  batches.reduce((sum, batch) => sum + (isPast(batch, nowMs) ? 0 : (batch.massG ?? 0)), 0);

/** Where all that stands of a kind is past its use-by: the batch of them that was good the longest. */
export function tooOld(kitchen: Kitchen, kind: Kind, nowMs: number): BatchState | undefined {
  const last = batchesOf(kitchen, kind).at(-1);
  return last !== undefined && isPast(last, nowMs) ? last : undefined;
}

/** "moss flood was to be used by 13:05"; with its day when that was not today. */
export function tooOldWords(kitchen: Kitchen, batch: BatchState, nowMs: number): string {
  const { timeZone } = kitchen.settings;
  const isToday = dayAndMinute(batch.useByAtMs, timeZone).day === dayAndMinute(nowMs, timeZone).day;
  const at = (isToday ? clockTime : dayTime)(batch.useByAtMs, timeZone);
  return `${kindWords(kitchen, batch)} was to be used by ${at}`;
}

/** "moss flood". */
export const kindWords = (kitchen: Kitchen, { icingId, consistency }: Kind): string =>
  `${kitchen.icings[icingId]?.name ?? "icing"} ${consistency}`;
