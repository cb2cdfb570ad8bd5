import { EMPTY_LOG_HASH, nextLogHash } from "#server/log/log-hash.ts";
import type { FoundEvent } from "./find-rows.ts";

/** Events that are not in a salvaged log: they lie on damaged pages, or are not what was written. */
export interface LeftOut {
  fromSeq: number;
  toSeq: number;
  why: "damaged" | "altered";
}

export interface ReadableLog {
  /** In their order, each with the number it had. */
  events: readonly { seq: number; event: FoundEvent }[];
  leftOut: readonly LeftOut[];
}

/**
 * The events that are what was written, by the running hash of those beside them, and which of 1 to `lastSeq` are not. An event after
 * a gap is taken as it is: nothing says what its hash must be.
 */
export function readableLog(found: ReadonlyMap<number, FoundEvent>, lastSeq: number): ReadableLog {
  const events: { seq: number; event: FoundEvent }[] = [];
  const leftOut: LeftOut[] = [];
  const leave = (fromSeq: number, toSeq: number, why: LeftOut["why"]): void => {
    const before = leftOut.at(-1);
    if (before?.why === why && before.toSeq === fromSeq - 1) before.toSeq = toSeq;
    else leftOut.push({ fromSeq, toSeq, why });
  };
  /** The hash before an event, where it is known. */
  let hash: string | undefined = EMPTY_LOG_HASH;
  let before = 0;
  for (const [seq, event] of [...found].toSorted(([a], [b]) => a - b)) {
    if (seq > before + 1) {
      leave(before + 1, seq - 1, "damaged");
      hash = undefined;
    }
    before = seq;
    const expected: string | undefined = hash === undefined ? undefined : nextLogHash(hash, event.json);
    if (event.hash === undefined || expected === undefined || expected === event.hash) {
      events.push({ seq, event });
      hash = event.hash ?? expected;
    } else if (isTrue(expected, found.get(seq + 1))) {
      // What was written is whole: it is its hash that is not.
      events.push({ seq, event });
      hash = expected;
    } else {
      leave(seq, seq, "altered");
      hash = event.hash;
    }
  }
  if (lastSeq > before) leave(before + 1, lastSeq, "damaged");
  return { events, leftOut };
}

const isTrue = (hash: string, next: FoundEvent | undefined): boolean =>
  next !== undefined && nextLogHash(hash, next.json) === next.hash;
