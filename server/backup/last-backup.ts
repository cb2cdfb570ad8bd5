import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import * as v from "valibot";
import { BACKUP_REASONS, type BackupKept } from "#shared/kitchen/model/backup.ts";
import { writeWhole } from "#server/log/write-whole.ts";
import type { BackupFolder } from "./backup-folder.ts";

/** The newest backup that was found whole, noted in the data folder: its disk may be unplugged, or the database damaged. */
const LastBackup = v.object({
  kitchenId: v.string(),
  file: v.string(),
  bytes: v.number(),
  madeAtMs: v.number(),
  reason: v.picklist(BACKUP_REASONS),
  events: v.number(),
  trays: v.number(),
});
export type LastBackup = v.InferOutput<typeof LastBackup>;

const fileIn = (dataFolder: string): string => join(dataFolder, "last-backup.json");

/** Undefined where there is none, or none that can be read: it is a note only. */
export function readLastBackup(dataFolder: string): LastBackup | undefined {
  try {
    return v.parse(LastBackup, JSON.parse(readFileSync(fileIn(dataFolder), "utf8")));
  } catch {
    return undefined;
  }
}

export const writeLastBackup = (dataFolder: string, last: LastBackup): void =>
  writeWhole(fileIn(dataFolder), JSON.stringify(last));

/**
 * Whether a chosen folder holds none of the backups made in it before. A disk that is unplugged leaves an empty folder where it was:
 * copies onto the first disk would go unnoticed.
 */
export const hasLostBackups = (
  { path, isOwn }: BackupFolder,
  last: LastBackup | undefined,
  kept: readonly BackupKept[],
): boolean => !isOwn && last !== undefined && dirname(last.file) === path && kept.length === 0;
