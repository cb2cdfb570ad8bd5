import * as v from "valibot";
import type { Sqlite } from "#server/log/sqlite.ts";
import { BACKUP_REASONS } from "#shared/kitchen/model/backup.ts";
import { PROTOCOL_VERSION } from "#shared/protocol/version.ts";

/** How a backup file is laid out: the kitchen's tables, these facts and the photos. */
const FORMAT = 1;

/** What a backup says of itself. */
export const BackupFacts = v.object({
  format: v.number(),
  /** The newest shapes of events it may hold. */
  protocol: v.number(),
  kitchenId: v.string(),
  madeMs: v.number(),
  reason: v.picklist(BACKUP_REASONS),
  /** The version of Traytide that made it. */
  app: v.string(),
});
export type BackupFacts = v.InferOutput<typeof BackupFacts>;

export const currentFormat = { format: FORMAT, protocol: PROTOCOL_VERSION };

export const isNewer = ({ format, protocol }: BackupFacts): boolean =>
  format > FORMAT || protocol > PROTOCOL_VERSION;

const TABLES = `
CREATE TABLE backup_facts (facts TEXT NOT NULL) STRICT;
CREATE TABLE backup_photos (name TEXT PRIMARY KEY, jpeg BLOB NOT NULL) STRICT;
`;

/** A photo of a design: its file's name and what is in it. */
export interface Photo {
  name: string;
  jpeg: Uint8Array;
}

/** Makes a copy of a kitchen's database a backup. Photos are taken one at a time, as they may be many. */
export function writeBackupTables(db: Sqlite, facts: BackupFacts, photos: Iterable<Photo>): void {
  db.transaction(() => {
    db.exec(TABLES);
    db.prepare("INSERT INTO backup_facts (facts) VALUES (?)").run(JSON.stringify(facts));
    const add = db.prepare("INSERT INTO backup_photos (name, jpeg) VALUES (?, ?)");
    for (const { name, jpeg } of photos) add.run(name, jpeg);
  })();
}

/** What a file says of itself; undefined where it is no backup. */
export function backupFacts(db: Sqlite): BackupFacts | undefined {
  if (!hasTable(db, "backup_facts")) return undefined;
  const row = db.prepare<[], { facts: string }>("SELECT facts FROM backup_facts").get();
  const parsed = v.safeParse(BackupFacts, row === undefined ? undefined : JSON.parse(row.facts));
  return parsed.success ? parsed.output : undefined;
}

/** The photos in a backup, one at a time. */
export function* backupPhotos(db: Sqlite): Generator<Photo> {
  const names = db.prepare<[], { name: string }>("SELECT name FROM backup_photos ORDER BY name").all();
  const one = db.prepare<[string], { jpeg: ArrayBuffer }>("SELECT jpeg FROM backup_photos WHERE name = ?");
  for (const { name } of names) {
    const row = one.get(name);
    if (row !== undefined) yield { name, jpeg: new Uint8Array(row.jpeg) };
  }
}

/** Leaves the kitchen's own tables only. */
export const dropBackupTables = (db: Sqlite): void =>
  db.exec("DROP TABLE backup_facts; DROP TABLE backup_photos;");

export const hasTable = (db: Sqlite, name: string): boolean =>
  db
    .prepare<[string], { name: string }>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name = ?")
    .get(name) !== undefined;
