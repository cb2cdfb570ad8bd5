import { createHash } from "node:crypto";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { foldFrom } from "#shared/kitchen/events/fold.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { KitchenFault } from "#shared/words/en/server/verify.ts";
import { errorMessage } from "#server/error-message.ts";
import { SCHEMA_VERSION } from "#server/log/kitchen-db.ts";
import { EMPTY_LOG_HASH, nextLogHash } from "#server/log/log-hash.ts";
import { openSqlite, type Sqlite, SqliteFailure } from "#server/log/sqlite.ts";
import { readEvent } from "#server/log/stored.ts";
import { type BackupFacts, backupFacts, hasTable } from "./backup-facts.ts";
import { fileFault } from "./file-check.ts";
import { epochOf, kitchenIdOf } from "./kitchen-id.ts";

/** An event that is whole, and of no kind that this version knows, or that a kitchen cannot take. */
export interface Unreadable {
  seq: number;
  reason: string;
}

/** What a database holds. */
export interface Held {
  tables: number;
  kitchenId: string | undefined;
  epoch: string | undefined;
  facts: BackupFacts | undefined;
  /** The log's last number and running hash; 0 and "" of an empty one. */
  seq: number;
  hash: string;
  events: number;
  firstMs: number | undefined;
  latestMs: number | undefined;
  /** Undefined before the kitchen was set up. */
  name: string | undefined;
  trays: number;
  answers: number;
  devices: number;
  snapshots: number;
  photos: number;
  unreadable: readonly Unreadable[];
}

export interface Examined {
  /** Absent where it could not be opened at all. */
  held?: Held;
  faults: readonly KitchenFault[];
}

/** Events read at once. */
const PAGE = 1000;
const LONGEST_LIST = 20;

/**
 * Reads a kitchen's database from end to end, as it stands at one moment, and changes nothing: its pages, its sequence, its hashes,
 * and its events as a server would on opening it. Not to be used on a database that this process has open.
 */
export function examine(file: string, onEvent: (done: number, of: number) => void = () => {}): Examined {
  const fault = fileFault(file);
  if (fault !== undefined) return { faults: [fault] };
  const db = openSqlite(file);
  try {
    db.exec("BEGIN");
    return examineOpen(db, onEvent);
  } catch (error) {
    if (!isDamage(error)) throw error;
    return { faults: [{ code: "damaged-pages", detail: [errorMessage(error)] }] };
  } finally {
    db.close();
  }
}

/** Whether a failure says that the file itself is not whole. */
export const isDamage = (error: unknown): boolean =>
  error instanceof SqliteFailure && /^SQLITE_(CORRUPT|NOTADB)/.test(error.code);

function examineOpen(db: Sqlite, onEvent: (done: number, of: number) => void): Examined {
  const tables = Number(db.pragma("user_version"));
  if (!hasTable(db, "meta") || !hasTable(db, "events")) return { faults: [{ code: "no-kitchen" }] };
  if (tables > SCHEMA_VERSION) return { faults: [{ code: "newer", tables, known: SCHEMA_VERSION }] };
  const faults: KitchenFault[] = [];
  const pages = db.prepare<[], { integrity_check: string }>("PRAGMA integrity_check").all();
  const detail = pages.map(({ integrity_check }) => integrity_check).filter((line) => line !== "ok");
  if (detail.length > 0) faults.push({ code: "damaged-pages", detail: detail.slice(0, LONGEST_LIST) });
  const { kitchen, ...log } = readLog(db, tables, onEvent, faults);
  const held: Held = {
    tables,
    kitchenId: kitchenIdOf(db),
    epoch: epochOf(db),
    facts: backupFacts(db),
    ...log,
    name: kitchen.isSetUp ? kitchen.settings.name : undefined,
    trays: aliveTrays(kitchen).length,
    answers: count(db, "commands"),
    devices: count(db, "devices"),
    snapshots: checkSnapshots(db, faults),
    photos: hasTable(db, "backup_photos") ? count(db, "backup_photos") : 0,
  };
  return { held, faults };
}

function count(db: Sqlite, table: string): number {
  return db.prepare<[], { n: number }>(`SELECT count(*) AS n FROM ${table}`).get()?.n ?? 0;
}

interface ReadLog extends Pick<Held, "seq" | "hash" | "events" | "firstMs" | "latestMs" | "unreadable"> {
  kitchen: Kitchen;
}

/** Every event in its order, as far as damaged pages let it be read. */
function readLog(
  db: Sqlite,
  tables: number,
  onEvent: (done: number, of: number) => void,
  faults: KitchenFault[],
): ReadLog {
  const hasHash = tables >= 2;
  const page = db.prepare<[number, number], { seq: number; event: string; hash: string }>(
    `SELECT seq, event, ${hasHash ? "hash" : "'' AS hash"} FROM events WHERE seq > ? ORDER BY seq LIMIT ?`,
  );
  const unreadable: Unreadable[] = [];
  const fold = foldFrom(EMPTY_KITCHEN);
  let [seq, events, hash] = [0, 0, EMPTY_LOG_HASH];
  let firstMs: number | undefined;
  let latestMs: number | undefined;
  const told = (): ReadLog => ({ seq, hash, events, firstMs, latestMs, unreadable, kitchen: fold.kitchen() });
  try {
    const of = db.prepare<[], { seq: number | null }>("SELECT max(seq) AS seq FROM events").get()?.seq ?? 0;
    for (;;) {
      const rows = page.all(seq, PAGE);
      for (const row of rows) {
        if (row.seq !== seq + 1) faults.push({ code: "gap", afterSeq: seq, nextSeq: row.seq });
        const expected = nextLogHash(hash, row.event);
        // After a gap nothing is known of the hash before.
        if (hasHash && row.seq === seq + 1 && row.hash !== expected)
          faults.push({ code: "altered", seq: row.seq });
        hash = hasHash ? row.hash : expected;
        seq = row.seq;
        events += 1;
        const read = readEvent(row.event);
        if ("reason" in read) {
          unreadable.push({ seq, reason: read.reason });
          continue;
        }
        firstMs ??= read.event.atMs;
        latestMs = read.event.atMs;
        try {
          fold.add(read.event);
        } catch (error) {
          unreadable.push({ seq, reason: errorMessage(error) });
        }
      }
      onEvent(seq, of);
      if (rows.length < PAGE) return told();
    }
  } catch (error) {
    if (!isDamage(error)) throw error;
    if (!faults.some(({ code }) => code === "damaged-pages"))
      faults.push({ code: "damaged-pages", detail: [errorMessage(error)] });
    return told();
  }
}

/** How many snapshots there are, the damaged among the faults: the server passes over those. */
function checkSnapshots(db: Sqlite, faults: KitchenFault[]): number {
  const rows = db.prepare<[], { seq: number }>("SELECT seq FROM snapshots ORDER BY seq").all();
  const one = db.prepare<[number], { sha256: string; kitchen: string }>(
    "SELECT sha256, kitchen FROM snapshots WHERE seq = ?",
  );
  for (const { seq } of rows) {
    const row = one.get(seq);
    if (row === undefined || createHash("sha256").update(row.kitchen).digest("hex") !== row.sha256)
      faults.push({ code: "damaged-snapshot", seq });
  }
  return rows.length;
}
