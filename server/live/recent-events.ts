import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { EMPTY_LOG_HASH } from "#server/log/log-hash.ts";

/** Events kept at hand for screens that were away a moment. */
export const RECENT_MOST = 500;

/** The newest events of the log, with its running hash before the first of them and after each. */
export interface RecentEvents {
  /** After the newest. */
  hash: () => string;
  add: (events: readonly KitchenEvent[], hashes: readonly string[]) => void;
  /** The last so many; undefined if they are not at hand, or the log's hash before them is another than told. */
  last: (count: number, hash?: string) => readonly KitchenEvent[] | undefined;
}

export function recentEvents(events: readonly KitchenEvent[], hashes: readonly string[]): RecentEvents {
  const recent = [...events];
  const marks = [...hashes];
  return {
    hash: () => marks.at(-1) ?? EMPTY_LOG_HASH,
    add: (more, moreHashes) => {
      recent.push(...more);
      marks.push(...moreHashes);
      // Now and then: each time, all of them would be moved for each command.
      if (recent.length < 2 * RECENT_MOST) return;
      recent.splice(0, recent.length - RECENT_MOST);
      marks.splice(0, marks.length - RECENT_MOST - 1);
    },
    last: (count, expected) => {
      if (!Number.isInteger(count) || count < 0 || count > Math.min(RECENT_MOST, recent.length))
        return undefined;
      if (expected !== undefined && marks.at(-1 - count) !== expected) return undefined;
      return count === 0 ? [] : recent.slice(-count);
    },
  };
}
