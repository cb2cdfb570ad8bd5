import type { BackupHolds, BackupKept, BackupProgress } from "#shared/kitchen/model/backup.ts";
import type { BackupTrouble } from "#shared/kitchen/model/server-problem.ts";

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
      holds?: BackupHolds;
      /** Kitchen time. */
      nextAtMs: number;
      running?: BackupProgress;
      /** Of the last try, where it failed. */
      trouble?: BackupTrouble;
    };
