import { copyFileSync, existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { WordedError } from "#server/words.ts";
import { lockFolder } from "#server/log/folder-lock.ts";
import { writeHighWater } from "#server/log/high-water.ts";
import { openSqlite, type Sqlite } from "#server/log/sqlite.ts";
import { syncFile, syncNames } from "#server/log/write-whole.ts";
import { backupPhotos, dropBackupTables, hasTable, isNewer } from "./backup-facts.ts";
import { examine, type Held, isDamage } from "./examine.ts";
import { fileFault } from "./file-check.ts";
import { kitchenIdOf, setEpoch } from "./kitchen-id.ts";
import { readLastBackup } from "./last-backup.ts";

export interface Restored {
  held: Held;
  /** Where what was there before is now; absent where there was nothing. */
  replaced: string | undefined;
  photos: number;
}

export interface RestoreDeps {
  newId: () => string;
  nowMs: number;
}

/** What is replaced, the database itself first: what is left of a move that was cut off then opens as nothing else. */
const PHOTOS = "photos";
const MOVED = ["kitchen.db", "kitchen.db-wal", "kitchen.db-shm", "kitchen.db-journal", PHOTOS];

/**
 * Puts a backup into a data folder, under a new epoch, and sets aside what is there. Throws, in words, with nothing changed, where the
 * file is not a whole backup of the folder's own kitchen, or a server has the folder.
 */
export function restore(file: string, dataFolder: string, { newId, nowMs }: RestoreDeps): Restored {
  const { held, kitchenId } = wholeBackup(file);
  const isNew = !existsSync(dataFolder);
  mkdirSync(dataFolder, { recursive: true, mode: 0o700 });
  const unlock = lockFolder(dataFolder);
  try {
    const present = presentIn(dataFolder);
    if (present.kitchenId !== undefined && present.kitchenId !== kitchenId && !present.isEmpty)
      throw new WordedError(({ server }) => server.restore.otherKitchen(file, held.name, dataFolder));
    const epoch = newId();
    const photos = prepare(file, dataFolder, { kitchenId, epoch, forgotten: present.forgotten });
    const replaced = isNew ? undefined : folderAside(dataFolder, nowMs);
    // A start that comes before the database is in its place is refused by this: it would open an empty kitchen.
    writeHighWater(dataFolder, { epoch, seq: held.seq });
    if (replaced !== undefined) moveInto(replaced, dataFolder);
    renameSync(join(dataFolder, FRESH), join(dataFolder, "kitchen.db"));
    if (photos > 0) renameSync(join(dataFolder, FRESH_PHOTOS), join(dataFolder, PHOTOS));
    syncNames(dataFolder);
    return { held, replaced, photos };
  } finally {
    for (const left of [FRESH, `${FRESH}-journal`, FRESH_PHOTOS])
      rmSync(join(dataFolder, left), { recursive: true, force: true });
    unlock();
  }
}

const FRESH = "restoring.db";
const FRESH_PHOTOS = "restoring-photos";

/** A backup that is whole, and made by this version or one before. */
function wholeBackup(file: string): { held: Held; kitchenId: string } {
  const { held, faults } = examine(file);
  const fault = faults.find(({ code }) => code !== "damaged-snapshot");
  if (fault !== undefined) throw new WordedError(({ server }) => server.verify.fault(fault, file));
  if (held?.facts === undefined) throw new WordedError(({ server }) => server.restore.noBackup(file));
  if (isNewer(held.facts)) throw new WordedError(({ server }) => server.restore.newer(file));
  return { held, kitchenId: held.facts.kitchenId };
}

interface Present {
  kitchenId: string | undefined;
  isEmpty: boolean;
  /** Devices whose tokens were made worthless: a stolen phone is not let in again by an older copy. */
  forgotten: readonly { device_id: string; forgotten_ms: number }[];
}

/** What is known of the kitchen that is in a folder now. It may be too damaged to tell, which is why it is replaced. */
function presentIn(dataFolder: string): Present {
  const file = join(dataFolder, "kitchen.db");
  const noted = { kitchenId: readLastBackup(dataFolder)?.kitchenId, isEmpty: false, forgotten: [] };
  if (fileFault(file) !== undefined) return noted;
  const db = openSqlite(file);
  try {
    if (!hasTable(db, "meta")) return noted;
    const events = db.prepare<[], { n: number }>("SELECT count(*) AS n FROM events").get()?.n ?? 0;
    const forgotten = db
      .prepare<[], Present["forgotten"][number]>(
        "SELECT device_id, forgotten_ms FROM devices WHERE forgotten_ms IS NOT NULL",
      )
      .all();
    return { kitchenId: kitchenIdOf(db), isEmpty: events === 0, forgotten };
  } catch (error) {
    if (!isDamage(error)) throw error;
    return noted;
  } finally {
    db.close();
  }
}

/** Makes the database and the photos as they will be, beside what is there; returns how many photos. */
function prepare(
  file: string,
  dataFolder: string,
  { kitchenId, epoch, forgotten }: { kitchenId: string; epoch: string; forgotten: Present["forgotten"] },
): number {
  const fresh = join(dataFolder, FRESH);
  copyFileSync(file, fresh);
  const db = openSqlite(fresh);
  let photos = 0;
  try {
    photos = writePhotos(db, join(dataFolder, FRESH_PHOTOS));
    db.transaction(() => {
      dropBackupTables(db);
      setEpoch(db, kitchenId, epoch);
      const forget = db.prepare(
        "UPDATE devices SET forgotten_ms = ? WHERE device_id = ? AND forgotten_ms IS NULL",
      );
      for (const { device_id, forgotten_ms } of forgotten) forget.run(forgotten_ms, device_id);
    })();
  } finally {
    db.close();
  }
  syncFile(fresh);
  return photos;
}

function writePhotos(db: Sqlite, folder: string): number {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  let photos = 0;
  for (const { name, jpeg } of backupPhotos(db)) {
    writeFileSync(join(folder, name), jpeg, { mode: 0o600 });
    syncFile(join(folder, name));
    photos += 1;
  }
  syncNames(folder);
  return photos;
}

/** Makes the folder for what is there, with how far its log came; undefined where there is nothing. */
function folderAside(dataFolder: string, nowMs: number): string | undefined {
  if (!MOVED.some((name) => existsSync(join(dataFolder, name)))) return undefined;
  const name = join(dataFolder, `replaced-${new Date(nowMs).toISOString().replaceAll(/[:.]/g, "-")}`);
  let aside = name;
  for (let k = 2; existsSync(aside); k += 1) aside = `${name}-${k}`;
  mkdirSync(aside, { mode: 0o700 });
  const mark = join(dataFolder, "high-water.json");
  if (existsSync(mark)) copyFileSync(mark, join(aside, "high-water.json"));
  return aside;
}

function moveInto(aside: string, dataFolder: string): void {
  for (const name of MOVED.filter((one) => existsSync(join(dataFolder, one))))
    renameSync(join(dataFolder, name), join(aside, name));
  syncNames(aside);
}
