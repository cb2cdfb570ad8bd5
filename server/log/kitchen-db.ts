import { sayError, WordedError } from "#server/words.ts";
import { EMPTY_LOG_HASH, nextLogHash } from "./log-hash.ts";
import { openSqlite, type Sqlite } from "./sqlite.ts";

export type KitchenDb = Sqlite;

const NEVER_CHANGES = `
CREATE TRIGGER events_never_change BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
`;

const FIRST_TABLES = `
CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;

CREATE TABLE events (seq INTEGER PRIMARY KEY, type TEXT NOT NULL, event TEXT NOT NULL) STRICT;
${NEVER_CHANGES}
CREATE TRIGGER events_never_go BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;

CREATE TABLE commands (command_id TEXT PRIMARY KEY, answer TEXT NOT NULL) STRICT, WITHOUT ROWID;

CREATE TABLE snapshots (seq INTEGER PRIMARY KEY, app TEXT NOT NULL, sha256 TEXT NOT NULL, kitchen TEXT NOT NULL) STRICT;

CREATE TABLE set_aside (seq INTEGER PRIMARY KEY, type TEXT NOT NULL, reason TEXT NOT NULL, event TEXT NOT NULL) STRICT;

CREATE TABLE devices (
  device_id TEXT PRIMARY KEY,
  token_sha256 TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  person_id TEXT NOT NULL,
  may_lead INTEGER NOT NULL,
  created_ms INTEGER NOT NULL,
  seen_ms INTEGER NOT NULL,
  forgotten_ms INTEGER
) STRICT;
`;

/** An id sent again is the same command only from the same device and with the same body. Older rows know neither. */
const WHOSE_COMMAND = `
ALTER TABLE commands ADD COLUMN device_id TEXT;
ALTER TABLE commands ADD COLUMN body_sha256 TEXT;
`;

/**
 * What brings a database from one version of its tables to the next, oldest first: the version is how many were run. A new one
 * goes to the end, and none is ever changed.
 */
const MIGRATIONS: readonly ((db: KitchenDb) => void)[] = [
  (db) => db.exec(FIRST_TABLES),
  addRunningHash,
  (db) => db.exec(WHOSE_COMMAND),
];
export const SCHEMA_VERSION = MIGRATIONS.length;

/** Events read at once while a log is gone through. */
const PAGE = 1000;

/** Each event gets the hash of the log up to it; what is in the log stays as it is. */
function addRunningHash(db: KitchenDb): void {
  db.exec("DROP TRIGGER events_never_change; ALTER TABLE events ADD COLUMN hash TEXT NOT NULL DEFAULT '';");
  const page = db.prepare<[number, number], { seq: number; event: string }>(
    "SELECT seq, event FROM events WHERE seq > ? ORDER BY seq LIMIT ?",
  );
  const write = db.prepare("UPDATE events SET hash = ? WHERE seq = ?");
  let hash = EMPTY_LOG_HASH;
  for (let seq = 0; ;) {
    const rows = page.all(seq, PAGE);
    for (const row of rows) {
      hash = nextLogHash(hash, row.event);
      write.run(hash, row.seq);
    }
    if (rows.length < PAGE) break;
    seq = rows.at(-1)?.seq ?? seq;
  }
  db.exec(NEVER_CHANGES);
}

/**
 * Opens (and makes, when absent) a kitchen's database: write-ahead log, every commit synced to disk before it is
 * acknowledged. Throws, in words, when a newer Traytide made it or it is no database.
 */
export function openKitchenDb(file: string): KitchenDb {
  const db = openSqlite(file);
  try {
    db.pragma("journal_mode = WAL");
    db.pragma("synchronous = FULL");
    // Without this, a conflicting INSERT OR REPLACE would slip past the trigger that forbids DELETE.
    db.pragma("recursive_triggers = ON");
    const version = Number(db.pragma("user_version"));
    if (version > SCHEMA_VERSION) {
      throw new WordedError(({ server }) => server.data.newer(version, SCHEMA_VERSION));
    }
    if (version < SCHEMA_VERSION) {
      db.transaction(() => {
        for (const migrate of MIGRATIONS.slice(version)) migrate(db);
        db.pragma(`user_version = ${SCHEMA_VERSION}`);
      })();
    }
    return db;
  } catch (error) {
    db.close();
    throw new WordedError((words) => words.server.data.cannotOpen(file, sayError(error)(words)), {
      cause: error,
    });
  }
}
