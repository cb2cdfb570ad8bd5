import { createHash } from "node:crypto";
import { createReadStream, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { pipeline } from "node:stream/promises";
import type { BackupTrouble } from "#shared/kitchen/model/server-problem.ts";
import type { BackupKept, BackupReason } from "#shared/kitchen/model/backup.ts";
import type { KitchenFault } from "#shared/words/en/server/verify.ts";
import { errorMessage } from "#server/error-message.ts";
import type { CrashAt } from "#server/crash-points.ts";
import { saveTroubleOf } from "#server/log/disk-trouble.ts";
import { openSqlite } from "#server/log/sqlite.ts";
import { moveSynced, syncFile } from "#server/log/write-whole.ts";
import { currentFormat, hasTable, type Photo, writeBackupTables } from "./backup-facts.ts";
import {
  type BackupFolder,
  backupName,
  diskSpace,
  folderTrouble,
  listBackups,
  partName,
  prune,
} from "./backup-folder.ts";
import { examine, type Held, isDamage } from "./examine.ts";
import { fileFault } from "./file-check.ts";
import { kitchenIdOf } from "./kitchen-id.ts";
import { hasLostBackups, readLastBackup, writeLastBackup } from "./last-backup.ts";

export interface BackupJob {
  dataFolder: string;
  folder: BackupFolder;
  reason: BackupReason;
  /** The version of Traytide. */
  app: string;
  nowMs: number;
  /** Takes a folder that no longer holds any backup made in it before: someone who sees the machine says so. */
  isFolderSure: boolean;
}

/** A backup that was made and found whole. */
export interface Made extends BackupKept {
  sha256: string;
  held: Held;
}

/** What a backup that is being made tells of its progress. */
export type BackupStep =
  | { stage: "copying"; file: string; ofBytes: number }
  | { stage: "checking"; done: number; of: number };

/** No backup was made; what there was is as it was. */
export class BackupFailure extends Error {
  override name = "BackupFailure";
  readonly trouble: BackupTrouble;
  readonly faults: readonly KitchenFault[];
  constructor(trouble: BackupTrouble, detail: string, faults: readonly KitchenFault[] = [], cause?: unknown) {
    super(detail, { cause });
    this.trouble = trouble;
    this.faults = faults;
  }
}

/** A snapshot is worked out anew where it is damaged: no reason to have no backup. */
const isBad = ({ code }: KitchenFault): boolean => code !== "damaged-snapshot";

/**
 * Copies a kitchen as it stands at one moment, while a server may go on writing to it, looks the copy through and only then gives it
 * its name. For a process of its own: the copying holds up whatever else it does, and it leaves the database open until it ends.
 */
export async function makeBackup(
  job: BackupJob,
  onStep: (step: BackupStep) => void = () => {},
  { spaceOf = diskSpace, crash = async () => {} }: { spaceOf?: typeof diskSpace; crash?: CrashAt } = {},
): Promise<Made> {
  const { dataFolder, folder, reason, nowMs } = job;
  const trouble = await folderTrouble(folder);
  if (trouble !== undefined) throw new BackupFailure(trouble, folder.path);
  const source = join(dataFolder, "kitchen.db");
  const fault = fileFault(source);
  if (fault !== undefined) throw new BackupFailure("damaged", source, [fault]);
  let part: string | undefined;
  try {
    // Never closed: closing the last connection changes the file, and a server may be about to open it.
    const db = openSqlite(source);
    const kitchenId = hasTable(db, "meta") ? kitchenIdOf(db) : undefined;
    if (kitchenId === undefined) throw new BackupFailure("damaged", source, [{ code: "no-kitchen" }]);
    const isLost =
      !job.isFolderSure &&
      hasLostBackups(folder, readLastBackup(dataFolder), await listBackups(folder.path, kitchenId));
    if (isLost) throw new BackupFailure("folder-lost-backups", folder.path);
    const photosFolder = join(dataFolder, "photos");
    const ofBytes = sizeOf(source) + sizeOf(`${source}-wal`) + photosBytes(photosFolder);
    if ((await spaceOf(folder.path)).freeBytes < ofBytes) throw new BackupFailure("disk-full", folder.path);

    const name = backupName(kitchenId, nowMs, reason);
    part = join(folder.path, partName(name, process.pid));
    onStep({ stage: "copying", file: part, ofBytes });
    db.prepare<[string]>("VACUUM INTO ?").run(part);
    await crash("in-backup");
    const copy = openSqlite(part);
    const facts = { ...currentFormat, kitchenId, madeMs: nowMs, reason, app: job.app };
    writeBackupTables(copy, facts, photosIn(photosFolder));
    copy.close();
    syncFile(part);

    const { held, faults } = examine(part, (done, of) => onStep({ stage: "checking", done, of }));
    const bad = faults.filter(isBad);
    if (held === undefined || bad.length > 0) throw new BackupFailure("damaged", source, bad);
    const sha256 = await fileSha256(part);
    const file = join(folder.path, name);
    await crash("in-backup");
    moveSynced(part, file);
    part = undefined;
    const made = { file, bytes: sizeOf(file), madeAtMs: nowMs, reason, sha256, held };
    await afterwards(job, kitchenId, made);
    return made;
  } catch (error) {
    if (part !== undefined) for (const end of ["", "-journal"]) rmSync(`${part}${end}`, { force: true });
    throw error instanceof BackupFailure ? error : failureOf(error, source, folder.path);
  }
}

/** Neither of these can undo the backup that was just made. */
async function afterwards(
  { dataFolder, folder, nowMs }: BackupJob,
  kitchenId: string,
  made: Made,
): Promise<void> {
  const { file, bytes, madeAtMs, reason, held } = made;
  try {
    writeLastBackup(dataFolder, {
      kitchenId,
      file,
      bytes,
      madeAtMs,
      reason,
      events: held.events,
      trays: held.trays,
    });
  } catch {
    // The folder itself tells of it.
  }
  await prune(folder.path, kitchenId, file, nowMs).catch(() => undefined);
}

function failureOf(error: unknown, source: string, folder: string): BackupFailure {
  if (isDamage(error)) {
    const detail = [errorMessage(error)];
    return new BackupFailure("damaged", source, [{ code: "damaged-pages", detail }], error);
  }
  const why = saveTroubleOf(error, folder);
  return new BackupFailure(why === "folder-gone" ? "folder-missing" : why, errorMessage(error), [], error);
}

const sizeOf = (file: string): number => statSync(file, { throwIfNoEntry: false })?.size ?? 0;

const PHOTO = /^[\w-]+\.jpg$/;
function photoNames(folder: string): string[] {
  try {
    return readdirSync(folder).filter((name) => PHOTO.test(name));
  } catch (error) {
    if ((error as { code?: unknown }).code === "ENOENT") return [];
    throw error;
  }
}

const photosBytes = (folder: string): number =>
  photoNames(folder).reduce((sum, name) => sum + sizeOf(join(folder, name)), 0);

function* photosIn(folder: string): Generator<Photo> {
  for (const name of photoNames(folder)) {
    try {
      yield { name, jpeg: readFileSync(join(folder, name)) };
    } catch (error) {
      // It went with its design just now.
      if ((error as { code?: unknown }).code !== "ENOENT") throw error;
    }
  }
}

async function fileSha256(file: string): Promise<string> {
  const hash = createHash("sha256");
  await pipeline(createReadStream(file), hash);
  return hash.digest("hex");
}
