import { copyFileSync, existsSync, mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { setEpoch } from "#server/backup/kitchen-id.ts";
import { readLastBackup } from "#server/backup/last-backup.ts";
import { readHighWater, writeHighWater } from "#server/log/high-water.ts";
import { type KitchenDb, openKitchenDb } from "#server/log/kitchen-db.ts";
import { EMPTY_LOG_HASH, nextLogHash } from "#server/log/log-hash.ts";
import { SqliteFailure } from "#server/log/sqlite.ts";
import { syncFile, syncNames } from "#server/log/write-whole.ts";
import { type Found, findRows } from "./find-rows.ts";
import { openPages } from "./pages.ts";
import { type LeftOut, readableLog } from "./readable-log.ts";
import type { Value } from "./rows.ts";

/** What a salvaged kitchen holds, and what it lacks. */
export interface Salvaged {
  file: string;
  events: number;
  /** How far the log is known to have come. */
  lastSeq: number;
  leftOut: readonly LeftOut[];
  answers: number;
  /** Answers whose events are lost: a tap that is sent again is decided again. */
  answersLeft: number;
  devices: number;
  photos: number;
  /** What could not be read beside the log, or is not told: codes are made anew. */
  lacks: readonly ("lead-code" | "join-code" | "devices")[];
}

/**
 * Reads what is readable of a damaged database into a new data folder, which must not be there yet. The new log is numbered again
 * without gaps, its hashes and its epoch are its own, and it is the same kitchen. Undefined where no event could be read.
 */
export function salvage(file: string, into: string, newId: () => string): Salvaged | undefined {
  const pages = openPages(file);
  const found = findRows(pages);
  pages.close();
  const folder = dirname(file);
  const lastSeq = Math.max(0, ...maxOf(found.events.keys()), ...knownSeqs(folder, found));
  const { events, leftOut } = readableLog(found.events, lastSeq);
  if (events.length === 0) return undefined;

  mkdirSync(into, { recursive: true, mode: 0o700 });
  const db = openKitchenDb(join(into, "kitchen.db"));
  const epoch = newId();
  const renumbered = new Map<number, number>();
  let answers = 0;
  let devices = 0;
  db.transaction(() => {
    const insert = db.prepare("INSERT INTO events (seq, type, event, hash) VALUES (?, ?, ?, ?)");
    let hash = EMPTY_LOG_HASH;
    for (const [k, { seq, event }] of events.entries()) {
      hash = nextLogHash(hash, event.json);
      insert.run(k + 1, event.type, event.json, hash);
      renumbered.set(seq, k + 1);
    }
    answers = writeAnswers(db, found, renumbered);
    const add = inserter(db, "devices");
    for (const values of found.devices.values()) devices += add(values) ? 1 : 0;
    const keep = db.prepare("INSERT OR REPLACE INTO meta (key, value) VALUES (?, ?)");
    for (const [key, value] of found.kept) keep.run(key, value);
    setEpoch(db, kitchenId(folder, found) ?? epoch, epoch);
  })();
  db.close();
  syncFile(join(into, "kitchen.db"));
  const photos = writePhotos(found, join(folder, "photos"), join(into, "photos"));
  writeHighWater(into, { epoch, seq: events.length });
  syncNames(into);
  return {
    file: join(into, "kitchen.db"),
    events: events.length,
    lastSeq,
    leftOut,
    answers,
    answersLeft: found.answers.size - answers,
    devices,
    photos,
    lacks: [
      ...(found.kept.has("lead code scrypt") || found.kept.has("lead code") ? [] : (["lead-code"] as const)),
      ...(found.kept.has("join code") ? [] : (["join-code"] as const)),
      ...(devices > 0 ? [] : (["devices"] as const)),
    ],
  };
}

const maxOf = (numbers: Iterable<number>): number[] => {
  let most = 0;
  for (const one of numbers) most = Math.max(most, one);
  return [most];
};

/** What tells of events after the last that is readable. */
function knownSeqs(folder: string, found: Found): number[] {
  const mark = readHighWater(folder);
  const epoch = found.kept.get("epoch");
  const isMarkOfThis = mark !== undefined && (epoch === undefined || mark.epoch === epoch);
  const answered = [...found.answers.values()].flatMap(({ seq }) => seq ?? []);
  return [...(isMarkOfThis ? [mark.seq] : []), ...maxOf(answered)];
}

const kitchenId = (folder: string, { kept }: Found): string | undefined =>
  kept.get("kitchen id") ?? kept.get("epoch") ?? readLastBackup(folder)?.kitchenId;

/** Answers name events by number: those whose last event is lost are no answers any more. */
function writeAnswers(db: KitchenDb, found: Found, renumbered: ReadonlyMap<number, number>): number {
  const add = inserter(db, "commands");
  let written = 0;
  for (const { seq, values } of found.answers.values()) {
    const now = seq === undefined ? undefined : (renumbered.get(seq) ?? (seq === 0 ? 0 : undefined));
    if (seq !== undefined && now === undefined) continue;
    const [id = null, answer, ...rest] = values;
    const told = now === undefined ? answer : JSON.stringify({ ...JSON.parse(String(answer)), seq: now });
    if (add([id, told ?? null, ...rest])) written += 1;
  }
  return written;
}

/** Puts rows into a table by their columns' order, which never changes: an older row has fewer. False for one that does not fit. */
function inserter(db: KitchenDb, table: string): (values: readonly Value[]) => boolean {
  const columns = db.prepare<[], { name: string }>(`PRAGMA table_info(${table})`).all();
  return (values) => {
    const known = columns.slice(0, values.length).map(({ name }) => name);
    const asked = known.map(() => "?").join(", ");
    const insert = db.prepare(`INSERT INTO ${table} (${known.join(", ")}) VALUES (${asked})`);
    try {
      return insert.run(...values.slice(0, known.length)).changes === 1;
    } catch (error) {
      if (error instanceof SqliteFailure && error.code.startsWith("SQLITE_CONSTRAINT")) return false;
      throw error;
    }
  };
}

/** Those in a backup, or else those beside a kitchen's database. */
function writePhotos(found: Found, from: string, into: string): number {
  const names = existsSync(from) ? readdirSync(from).filter((name) => name.endsWith(".jpg")) : [];
  if (found.photos.size + names.length > 0) mkdirSync(into, { recursive: true, mode: 0o700 });
  for (const [name, jpeg] of found.photos) writeFileSync(join(into, name), jpeg, { mode: 0o600 });
  for (const name of names) copyFileSync(join(from, name), join(into, name));
  return new Set([...found.photos.keys(), ...names]).size;
}
