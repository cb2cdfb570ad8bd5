import { EMPTY_LOG_HASH, nextLogHash } from "#server/log/log-hash.ts";
import { type Carried, KITCHEN_TABLES, type KitchenSource, type KitchenTarget } from "./kitchen-tables.ts";

/** The log of a kitchen does not hang together: an event is missing, or is not as it was written. */
export class BrokenLog extends Error {
  override name = "BrokenLog";
  readonly seq: number;
  constructor(seq: number) {
    super(`event ${seq}`);
    this.seq = seq;
  }
}

/** What was written is not what was read. */
export class NotCarried extends Error {
  override name = "NotCarried";
}

/** Follows a log's numbers and hashes; throws at the first event that does not go on from the one before. */
function logCheck(): {
  add: (row: Readonly<Record<string, unknown>>) => void;
  seq: () => number;
  hash: () => string;
} {
  let [seq, hash] = [0, EMPTY_LOG_HASH];
  return {
    add: (row) => {
      const next = nextLogHash(hash, String(row["event"]));
      if (row["seq"] !== seq + 1 || row["hash"] !== next) throw new BrokenLog(seq + 1);
      [seq, hash] = [seq + 1, next];
    },
    seq: () => seq,
    hash: () => hash,
  };
}

/**
 * Carries all of a kitchen, then reads what was written again: as many of each, and the same log by its hashes. Throws where the log
 * that is read, or the one that was written, does not hang together.
 */
export async function carry(source: KitchenSource, target: KitchenTarget): Promise<Carried> {
  const read = await count(source, target);
  const written = await count(target.written);
  if (JSON.stringify(read) !== JSON.stringify(written)) throw new NotCarried();
  return written;
}

/** Counts and checks a kitchen; what it reads it also writes, where it is told where. */
export async function count(source: KitchenSource, target?: KitchenTarget): Promise<Carried> {
  const log = logCheck();
  const counts = new Map<string, number>();
  for (const table of KITCHEN_TABLES) {
    counts.set(table.name, 0);
    for await (const rows of source.rows(table)) {
      if (table.name === "events") rows.forEach(log.add);
      counts.set(table.name, (counts.get(table.name) ?? 0) + rows.length);
      await target?.insert(table, rows);
    }
  }
  let photos = 0;
  for await (const { designId, jpeg } of source.photos()) {
    photos += 1;
    await target?.putPhoto(designId, jpeg);
  }
  return {
    events: counts.get("events") ?? 0,
    answers: counts.get("commands") ?? 0,
    devices: counts.get("devices") ?? 0,
    photos,
    seq: log.seq(),
    hash: log.hash(),
  };
}
