import { stat } from "node:fs/promises";
import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import { diskSpace } from "./backup-folder.ts";

const MB = 1e6;
/** A disk is nearly full with less than this free, or less than a twentieth of it, whichever is smaller. */
const LOW_BYTES = 500 * MB;
const LOW_PART = 0.05;
/** Rounded, so that screens are not told of every page written, MB. */
const STEP_MB = 10;

type DiskLow = Extract<ServerProblem, { code: "disk-low" }>;

export const isLow = ({ freeBytes, bytes }: { freeBytes: number; bytes: number }, needsBytes = 0): boolean =>
  freeBytes < Math.max(Math.min(LOW_BYTES, LOW_PART * bytes), needsBytes);

const problemOf = (disk: DiskLow["disk"], freeBytes: number): DiskLow => ({
  code: "disk-low",
  disk,
  freeMb: Math.floor(freeBytes / MB / STEP_MB) * STEP_MB,
});

/** Which disks are nearly full; that of the backups also where the next two would not fit. One disk is said once. */
export async function lowDisks(
  dataFolder: string,
  backups: string | undefined,
  backupBytes: number,
): Promise<DiskLow[]> {
  const data = await diskSpace(dataFolder);
  if (backups === undefined) return isLow(data) ? [problemOf("data", data.freeBytes)] : [];
  const isOne = await areOnOneDisk(dataFolder, backups);
  const theirs = isOne ? data : await diskSpace(backups);
  const low: DiskLow[] = [];
  if (isLow(data, isOne ? 2 * backupBytes : 0)) low.push(problemOf("data", data.freeBytes));
  if (!isOne && isLow(theirs, 2 * backupBytes)) low.push(problemOf("backups", theirs.freeBytes));
  return low;
}

export const areOnOneDisk = async (one: string, other: string): Promise<boolean> =>
  (await stat(one)).dev === (await stat(other)).dev;
