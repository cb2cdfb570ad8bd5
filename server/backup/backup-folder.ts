import { createHash } from "node:crypto";
import { access, constants, mkdir, readdir, rm, stat, statfs } from "node:fs/promises";
import { join, resolve } from "node:path";
import type { BackupTrouble } from "#shared/kitchen/model/server-problem.ts";
import { BACKUP_REASONS, type BackupKept, type BackupReason } from "#shared/kitchen/model/backup.ts";
import { HOUR_MS } from "#shared/time.ts";

/** Where backups are kept. A folder that was chosen is never made: where its disk is unplugged, it would land on another. */
export interface BackupFolder {
  path: string;
  isOwn: boolean;
}

/** The folder that TRAYTIDE_BACKUPS names, or one in the data folder. */
export const backupsFolder = (dataFolder: string, chosen: string | undefined): BackupFolder =>
  chosen === undefined
    ? { path: resolve(dataFolder, "backups"), isOwn: true }
    : { path: resolve(chosen), isOwn: false };

/** Backups kept of each reason, so that a lead who takes many by hand pushes out no nightly one. */
export const KEPT_OF_EACH = 14;
/** A copy that was being made by a process that died: no live one leaves it alone for so long. */
const STALE_COPY_MS = HOUR_MS;

const PART = ".part";

/** Short enough for a file's name; kitchens that share a folder leave each other's backups alone. */
const mark = (kitchenId: string): string => createHash("sha256").update(kitchenId).digest("hex").slice(0, 8);

const stamp = (madeMs: number): string => new Date(madeMs).toISOString().replaceAll(/[:.]/g, "-");

export const backupName = (kitchenId: string, madeMs: number, reason: BackupReason): string =>
  `traytide-${mark(kitchenId)}-${stamp(madeMs)}-${reason}.db`;

/** The name of a copy that is not a backup yet: for one process, and taken for a backup by nobody. */
export const partName = (name: string, pid: number): string => `${name}.${pid}${PART}`;

const NAME = new RegExp(
  String.raw`^traytide-([\da-f]{8})-(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)-(\d{3})Z-(${BACKUP_REASONS.join("|")})\.db$`,
);

function fromName(name: string, kitchenId: string): { madeAtMs: number; reason: BackupReason } | undefined {
  const [, whose, day, hour, minute, second, ms, asReason] = NAME.exec(name) ?? [];
  const reason = BACKUP_REASONS.find((one) => one === asReason);
  const madeAtMs = Date.parse(`${day}T${hour}:${minute}:${second}.${ms}Z`);
  if (whose !== mark(kitchenId) || reason === undefined || Number.isNaN(madeAtMs)) return undefined;
  return { madeAtMs, reason };
}

/** A kitchen's backups in a folder, the newest first. A file has such a name only once it was found whole. */
export async function listBackups(folder: string, kitchenId: string): Promise<BackupKept[]> {
  const found: BackupKept[] = [];
  for (const name of await readdir(folder)) {
    const told = fromName(name, kitchenId);
    if (told === undefined) continue;
    const file = join(folder, name);
    const facts = await stat(file).catch(() => undefined);
    if (facts?.isFile() === true) found.push({ file, bytes: facts.size, ...told });
  }
  return found.toSorted((a, b) => b.madeAtMs - a.madeAtMs);
}

/** Removes what is older than the newest of each reason, and copies that were never finished. `made` stays, whatever the clock said before. */
export async function prune(folder: string, kitchenId: string, made: string, nowMs: number): Promise<void> {
  const kept = await listBackups(folder, kitchenId);
  for (const reason of BACKUP_REASONS) {
    const others = kept.filter((one) => one.reason === reason && one.file !== made);
    const isOfMade = others.length < kept.filter((one) => one.reason === reason).length;
    for (const { file } of others.slice(KEPT_OF_EACH - (isOfMade ? 1 : 0))) await rm(file, { force: true });
  }
  await removeStaleParts(folder, kitchenId, nowMs);
}

async function removeStaleParts(folder: string, kitchenId: string, nowMs: number): Promise<void> {
  for (const name of await readdir(folder)) {
    // SQLite's own journal of such a copy goes with it.
    const of = /^(.*\.db)\.\d+\.part(?:-journal)?$/.exec(name)?.[1];
    if (of === undefined || fromName(of, kitchenId) === undefined) continue;
    const facts = await stat(join(folder, name)).catch(() => undefined);
    if (facts !== undefined && nowMs - facts.mtimeMs > STALE_COPY_MS)
      await rm(join(folder, name), { force: true });
  }
}

/** What keeps a folder from taking a backup; makes the one that is Traytide's own. */
export async function folderTrouble({ path, isOwn }: BackupFolder): Promise<BackupTrouble | undefined> {
  try {
    if (isOwn) await mkdir(path, { recursive: true, mode: 0o700 });
    if (!(await stat(path)).isDirectory()) return "folder-missing";
    await access(path, constants.W_OK);
    return undefined;
  } catch (error) {
    const { code } = error as { code?: unknown };
    if (code === "ENOENT" || code === "ENOTDIR" || code === "ENODEV" || code === "ENXIO")
      return "folder-missing";
    return code === "ENOSPC" ? "disk-full" : "read-only";
  }
}

/** What is free on the disk of a folder, and how large that disk is. */
export async function diskSpace(folder: string): Promise<{ freeBytes: number; bytes: number }> {
  const { bavail, blocks, bsize } = await statfs(folder);
  return { freeBytes: bavail * bsize, bytes: blocks * bsize };
}
