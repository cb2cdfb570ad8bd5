import { EMPTY_LOG_HASH, nextLogHash } from "#server/log/log-hash.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";

/** A log and its answers as they stand in a database, whichever it is. */
export interface StoredLog {
  events: readonly { seq: number; event: string; hash: string }[];
  answers: ReadonlyMap<string, string>;
}

/** Everything that is wrong with a log; `acknowledged` is each answer that a device was given, by command id. */
export function faultsOf(
  { events, answers }: StoredLog,
  acknowledged: ReadonlyMap<string, CommandAnswer>,
): string[] {
  const faults: string[] = [];
  let hash = EMPTY_LOG_HASH;
  const seen = new Set<string>();
  const seqs = new Map<string, number>();
  for (const [at, row] of events.entries()) {
    if (row.seq !== at + 1) faults.push(`number ${row.seq} stands at ${at + 1}`);
    hash = nextLogHash(hash, row.event);
    if (row.hash !== hash) faults.push(`the hash at ${row.seq} is not that of what is before it`);
    const event = JSON.parse(row.event) as KitchenEvent;
    // One command may do several things, and none of them twice.
    const { atMs: _at, ...effect } = event;
    const text = JSON.stringify(effect);
    if (event.by !== "kitchen" && seen.has(text)) faults.push(`twice, at ${row.seq}: ${row.event}`);
    seen.add(text);
    seqs.set(event.actId, row.seq);
  }
  for (const [id, answer] of acknowledged) {
    const stored = answers.get(id);
    if (stored === undefined) faults.push(`${id} was acknowledged and is not in the log`);
    else if (stored !== JSON.stringify(answer))
      faults.push(`${id} was answered ${JSON.stringify(answer)}, and is ${stored}`);
    const seq = seqs.get(id);
    if (answer.ok && seq !== undefined && seq !== answer.seq)
      faults.push(`${id} was acknowledged at ${answer.seq} and stands at ${seq}`);
    if (!answer.ok && seq !== undefined) faults.push(`${id} was refused and did something at ${seq}`);
  }
  // A layer that a heat-set found unfinished counts as laid, under an id of its own.
  for (const id of seqs.keys())
    if (!answers.has(id.replace(/-laid$/, "")))
      faults.push(`what ${id} did is in the log, its answer is not`);
  return faults;
}
