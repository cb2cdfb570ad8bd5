import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { backupName } from "#server/backup/backup-folder.ts";
import type { Held } from "#server/backup/examine.ts";
import { writeLastBackup } from "#server/backup/last-backup.ts";
import { BackupFailure, type BackupJob, type Made } from "#server/backup/make-backup.ts";
import type { RunBackup } from "#server/backup/run-backup.ts";
import type { BackupTrouble } from "#shared/kitchen/model/server-problem.ts";

export const KITCHEN = "the kitchen";

/** Makes backups that hold nothing, at once or when told, or fails as it is told. */
export function handMade() {
  const jobs: BackupJob[] = [];
  let trouble: BackupTrouble | undefined;
  let wait: Promise<void> = Promise.resolve();
  const run: RunBackup = (job, onStep) => {
    jobs.push(job);
    const file = join(job.folder.path, backupName(KITCHEN, job.nowMs, job.reason));
    onStep({ stage: "checking", done: 25, of: 100 });
    const make = async (): Promise<Made> => {
      await wait;
      if (trouble !== undefined) throw new BackupFailure(trouble, "as the test asked");
      writeFileSync(file, "x".repeat(4000));
      const kept = { file, bytes: 4000, madeAtMs: job.nowMs, reason: job.reason };
      writeLastBackup(job.dataFolder, { ...kept, kitchenId: KITCHEN, events: 40, trays: 3 });
      return { ...kept, sha256: "", held: {} as Held };
    };
    return { made: make(), stop: () => undefined };
  };
  return {
    run,
    jobs,
    fail: (why: BackupTrouble | undefined) => void (trouble = why),
    hold: (until: Promise<void>) => void (wait = until),
  };
}
