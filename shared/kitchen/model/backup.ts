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

/** What a backup holds, in short. */
export interface BackupHolds {
  events: number;
  trays: number;
}

/** How far one that is being made has come. */
export interface BackupProgress {
  stage: "copying" | "checking";
  /** Of the stage, 0 to 1. */
  part: number;
}
