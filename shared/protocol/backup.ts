import type { BackupTrouble } from "#shared/kitchen/model/server-problem.ts";

/** Why a backup was made. */
export const BACKUP_REASONS = ["nightly", "upgrade", "by-hand"] as const;
export type BackupReason = (typeof BACKUP_REASONS)[number];

/** A backup that was looked through and found whole. */
export interface BackupKept {
  file: string;
  bytes: number;
  madeAtMs: number;
  reason: BackupReason;
}

/** `GET /api/backup`, for leads. `POST` takes one and answers the same at once, while it is being made. */
export type BackupAnswer =
  | { is: "none"; why: "practice" | "elsewhere" }
  | {
      is: "kept";
      folder: string;
      /** How many there are, and how many are kept of each reason. */
      count: number;
      depth: number;
      /** They are on the disk that holds the kitchen, and would go with it. */
      isOnDataDisk: boolean;
      last?: BackupKept;
      /** What the last one holds, where this server knows. */
      holds?: { events: number; trays: number };
      /** Kitchen time. */
      nextAtMs: number;
      running?: BackupProgress;
      /** Of the last try, where it failed. */
      trouble?: BackupTrouble;
    };

export interface BackupProgress {
  stage: "copying" | "checking";
  /** Of the stage, 0 to 1. */
  part: number;
}
