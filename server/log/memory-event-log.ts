import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { type EventLog, type Given, type KitchenSnapshot, StaleLog } from "./event-log.ts";
import { EMPTY_LOG_HASH, nextLogHash } from "./log-hash.ts";

/** An event log that lives as long as the process: for tests of everything above it. */
export function memoryEventLog(epoch: string): EventLog {
  const events: KitchenEvent[] = [];
  /** By sequence number, from 0 on. */
  const hashes: string[] = [EMPTY_LOG_HASH];
  const answers = new Map<string, Given>();
  let saved: KitchenSnapshot | undefined;

  return {
    epoch,
    latestSeq: async () => events.length,
    append: async (batch, fromSeq, fromHash = hashes[fromSeq]) => {
      if (events.length !== fromSeq || hashes[fromSeq] !== fromHash) throw new StaleLog();
      const ids = batch.map((decided) => decided.commandId);
      const twice = ids.find((id, k) => answers.has(id) || ids.indexOf(id) !== k);
      if (twice !== undefined) throw new StaleLog();
      for (const decided of batch) {
        const { commandId, events: _events, ...given } = decided;
        answers.set(commandId, given);
        for (const event of decided.events) {
          hashes.push(nextLogHash(hashes.at(-1) ?? EMPTY_LOG_HASH, JSON.stringify(event)));
          events.push(event);
        }
      }
      return hashes.slice(fromSeq + 1);
    },
    hashAt: async (seq) => hashes[seq],
    answers: async (ids) =>
      new Map(
        ids.flatMap((id) => {
          const answer = answers.get(id);
          return answer === undefined ? [] : [[id, answer] as const];
        }),
      ),
    since: async (seq, limit) => {
      const records = events.slice(seq, seq + limit).map((event, k) => ({
        seq: seq + k + 1,
        event,
        hash: hashes[seq + k + 1] ?? EMPTY_LOG_HASH,
      }));
      return { records, setAside: [], toSeq: records.at(-1)?.seq ?? seq };
    },
    setAside: async () => undefined,
    saveSnapshot: async (snapshot) => {
      saved = snapshot;
    },
    loadSnapshot: async () => ({ ...(saved !== undefined && { snapshot: saved }), damaged: [] }),
  };
}
