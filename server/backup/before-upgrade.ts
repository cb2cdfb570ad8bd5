import { existsSync, statSync } from "node:fs";
import { join } from "node:path";
import type { BackupTrouble } from "#shared/kitchen/model/server-problem.ts";
import { SCHEMA_VERSION } from "#server/log/kitchen-db.ts";
import { openSqlite } from "#server/log/sqlite.ts";
import type { Report, Say } from "#server/words.ts";
import { hasTable } from "./backup-facts.ts";
import type { BackupFolder } from "./backup-folder.ts";
import { BackupFailure } from "./make-backup.ts";
import { troubleWords } from "./failure-words.ts";
import type { RunBackup } from "./run-backup.ts";

/** The value under which a kitchen keeps what build opened it last. */
export const OPENED_BY = "opened by";

export interface BeforeUpgradeDeps {
  dataFolder: string;
  folder: BackupFolder;
  /** Names this build; absent while developing, where each start is another. */
  build?: string;
  app: string;
  run: RunBackup;
  nowMs: number;
  say: (say: Say) => void;
  report: Report;
}

/**
 * Takes a backup where another build than this one opened the kitchen last, or its tables are about to be changed. The kitchen opens
 * all the same where none can be made: a bakery cannot wait for a disk. Why, where none could.
 */
export async function backupBeforeUpgrade(deps: BeforeUpgradeDeps): Promise<BackupTrouble | undefined> {
  const { dataFolder, folder, run, nowMs, app } = deps;
  if (!isUpgrade(join(dataFolder, "kitchen.db"), deps.build)) return undefined;
  deps.say(({ server }) => server.backup.beforeUpgrade);
  const job = { dataFolder, folder, reason: "upgrade", app, nowMs, isFolderSure: false } as const;
  try {
    const { file } = await run(job, () => undefined).made;
    deps.say(({ server }) => server.backup.made(file));
    return undefined;
  } catch (error) {
    const failure = error instanceof BackupFailure ? error : new BackupFailure("unknown", String(error));
    deps.report(troubleWords(failure, folder.path));
    return failure.trouble;
  }
}

/** Whether a kitchen with something in it was last opened by another build, or has tables of before. */
function isUpgrade(file: string, build: string | undefined): boolean {
  if (!existsSync(file) || statSync(file).size === 0) return false;
  try {
    const db = openSqlite(file);
    try {
      if (!hasTable(db, "meta") || !hasTable(db, "events")) return false;
      const tables = Number(db.pragma("user_version"));
      const isEmpty = db.prepare("SELECT seq FROM events LIMIT 1").get() === undefined;
      if (isEmpty || tables > SCHEMA_VERSION) return false;
      const by = db
        .prepare<[string], { value: string }>("SELECT value FROM meta WHERE key = ?")
        .get(OPENED_BY)?.value;
      return tables < SCHEMA_VERSION || (build !== undefined && by !== build);
    } finally {
      db.close();
    }
  } catch {
    // What is wrong with it is said as it is opened.
    return false;
  }
}
