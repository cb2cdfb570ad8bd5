import { setPriority } from "node:os";
import { errorMessage } from "#server/error-message.ts";
import { crashAt } from "#server/crash-points.ts";
import { BackupFailure, type BackupJob, type BackupStep, makeBackup } from "./make-backup.ts";
import type { FromChild } from "./child-messages.ts";

/** Makes one backup in a process of its own, so that the server's thread never waits for it, and at a lower priority. */
const LOW_PRIORITY = 10;

const tell = (message: FromChild): Promise<void> =>
  // A server that is gone is told nothing more.
  new Promise((resolve) =>
    process.send === undefined || !process.connected ? resolve() : process.send(message, () => resolve()),
  );

process.umask(0o077);
try {
  setPriority(LOW_PRIORITY);
} catch {
  // Not every system lets it.
}
try {
  const job = JSON.parse(process.argv[2] ?? "") as BackupJob;
  const crash = crashAt(process.env["TRAYTIDE_CRASH_AT"], job.dataFolder);
  const onStep = (step: BackupStep): void => void tell({ is: "step", step });
  const made = await makeBackup(job, onStep, crash === undefined ? {} : { crash });
  await tell({ is: "made", made });
} catch (error) {
  const failure = error instanceof BackupFailure ? error : new BackupFailure("unknown", errorMessage(error));
  await tell({ is: "failed", trouble: failure.trouble, detail: failure.message, faults: failure.faults });
}
process.exit();
