import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { errorMessage } from "#server/error-message.ts";
import { type Decided, type EventLog, StaleLog } from "./event-log.ts";
import type { KitchenDb } from "./kitchen-db.ts";
import { EMPTY_LOG_HASH, nextLogHash } from "./log-hash.ts";
import { SqliteFailure } from "./sqlite.ts";
import { getOrCreate } from "./sqlite-values.ts";
import { type AnswerRow, type EventRow, givenOf, pageOf, textSha256, wholeKitchen } from "./stored.ts";

const SNAPSHOTS_KEPT = 2;

/**
 * The event log in a kitchen's database. `app` is the version of Traytide: a snapshot made by another one is passed
 * over and the events are folded again, since the state's shape may differ.
 */
export function sqliteEventLog(db: KitchenDb, app: string, newId: () => string): EventLog {
  const latest = db.prepare<[], { seq: number; hash: string }>(
    "SELECT seq, hash FROM events ORDER BY seq DESC LIMIT 1",
  );
  const insertEvent = db.prepare("INSERT INTO events (seq, type, event, hash) VALUES (?, ?, ?, ?)");
  const hashOf = db.prepare<[number], { hash: string }>("SELECT hash FROM events WHERE seq = ?");
  const insertAnswer = db.prepare(
    "INSERT INTO commands (command_id, answer, device_id, body_sha256) VALUES (?, ?, ?, ?)",
  );
  const answer = db.prepare<[string], AnswerRow>(
    "SELECT answer, device_id, body_sha256 FROM commands WHERE command_id = ?",
  );
  const after = db.prepare<[number, number], EventRow>(
    "SELECT seq, type, event, hash FROM events WHERE seq > ? ORDER BY seq LIMIT ?",
  );
  const insertAside = db.prepare(
    "INSERT OR IGNORE INTO set_aside (seq, type, reason, event) SELECT seq, type, ?, event FROM events WHERE seq = ?",
  );
  const insertSnapshot = db.prepare(
    "INSERT OR REPLACE INTO snapshots (seq, app, sha256, kitchen) VALUES (?, ?, ?, ?)",
  );
  const dropSnapshots = db.prepare(
    "DELETE FROM snapshots WHERE seq NOT IN (SELECT seq FROM snapshots ORDER BY seq DESC LIMIT ?)",
  );
  const snapshotSeqs = db.prepare<[string], { seq: number }>(
    "SELECT seq FROM snapshots WHERE app = ? ORDER BY seq DESC",
  );
  const snapshotAt = db.prepare<[number], { sha256: string; kitchen: string }>(
    "SELECT sha256, kitchen FROM snapshots WHERE seq = ?",
  );
  const latestSeq = (): number => latest.get()?.seq ?? 0;

  const hashAt = (seq: number): string | undefined => (seq === 0 ? EMPTY_LOG_HASH : hashOf.get(seq)?.hash);

  const append = db.transaction(
    (batch: readonly Decided[], fromSeq: number, fromHash?: string): readonly string[] => {
      const hashes: string[] = [];
      const stands = latest.get() ?? { seq: 0, hash: EMPTY_LOG_HASH };
      let { hash } = stands;
      if (stands.seq !== fromSeq || (fromHash ?? hash) !== hash) throw new StaleLog();
      for (const decided of batch) {
        const { commandId, deviceId = null, sha256: bodySha256 = null } = decided;
        insertAnswer.run(commandId, JSON.stringify(decided.answer), deviceId, bodySha256);
        for (const event of decided.events) {
          const json = JSON.stringify(event);
          hash = nextLogHash(hash, json);
          hashes.push(hash);
          insertEvent.run(fromSeq + hashes.length, event.type, json, hash);
        }
      }
      return hashes;
    },
  );

  /** A snapshot that is whole: neither its text nor the pages it lies on are damaged. */
  function readSnapshot(seq: number): Kitchen | undefined {
    try {
      return wholeKitchen(snapshotAt.get(seq));
    } catch {
      return undefined;
    }
  }

  return {
    epoch: getOrCreate(db, "epoch", newId),
    latestSeq: async () => latestSeq(),
    append: async (batch, fromSeq, fromHash) => {
      try {
        return append(batch, fromSeq, fromHash);
      } catch (error) {
        const isTwice = error instanceof SqliteFailure && error.code.startsWith("SQLITE_CONSTRAINT");
        throw isTwice ? new StaleLog({ cause: error }) : error;
      }
    },
    hashAt: async (seq) => hashAt(seq),
    answers: async (ids) =>
      new Map(
        ids.flatMap((id) => {
          const row = answer.get(id);
          return row === undefined ? [] : [[id, givenOf(row)] as const];
        }),
      ),
    since: async (seq, limit) => pageOf(after.all(seq, limit), seq),
    setAside: async (record) => {
      insertAside.run(record.reason, record.seq);
    },
    saveSnapshot: async (snapshot) => {
      const json = JSON.stringify(snapshot.kitchen);
      insertSnapshot.run(snapshot.seq, app, textSha256(json), json);
      dropSnapshots.run(SNAPSHOTS_KEPT);
    },
    loadSnapshot: async () => {
      const damaged: number[] = [];
      let seqs: number[];
      try {
        seqs = snapshotSeqs.all(app).map(({ seq }) => seq);
      } catch (error) {
        return { damaged, unreadable: errorMessage(error) };
      }
      for (const seq of seqs) {
        const kitchen = readSnapshot(seq);
        if (kitchen !== undefined && seq <= latestSeq()) return { snapshot: { seq, kitchen }, damaged };
        damaged.push(seq);
      }
      return { damaged };
    },
  };
}
