import { fork } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { FromChild } from "./child-messages.ts";
import { BackupFailure, type BackupJob, type BackupStep, type Made } from "./make-backup.ts";

/** A backup that is being made. */
export interface RunningBackup {
  /** Rejects with `BackupFailure`. */
  made: Promise<Made>;
  /** Gives it up: what was copied so far is no backup. */
  stop: () => void;
}

/** Makes a backup somewhere else than on this thread. */
export type RunBackup = (job: BackupJob, onStep: (step: BackupStep) => void) => RunningBackup;

/** Makes a backup in a process of its own, which `entry` starts. */
export const backupInChild =
  (entry: URL): RunBackup =>
  (job, onStep) => {
    const child = fork(fileURLToPath(entry), [JSON.stringify(job)], {
      execArgv: [],
      stdio: ["ignore", "ignore", "inherit", "ipc"],
    });
    const made = new Promise<Made>((resolve, reject) => {
      child.on("message", (message: FromChild) => {
        if (message.is === "step") onStep(message.step);
        else if (message.is === "made") resolve(message.made);
        else reject(new BackupFailure(message.trouble, message.detail, message.faults));
      });
      child.on("error", (error) => reject(new BackupFailure("unknown", error.message, [], error)));
      child.on("close", (code, signal) =>
        reject(new BackupFailure("unknown", `the backup's process ended by itself (${signal ?? code})`)),
      );
    });
    return { made, stop: () => void child.kill("SIGKILL") };
  };
