import type { BackupTrouble } from "#shared/kitchen/model/server-problem.ts";
import type { KitchenFault } from "#shared/words/en/server/verify.ts";
import type { BackupStep, Made } from "./make-backup.ts";

/** What the backup's process tells the server's. */
export type FromChild =
  | { is: "step"; step: BackupStep }
  | { is: "made"; made: Made }
  | { is: "failed"; trouble: BackupTrouble; detail: string; faults: readonly KitchenFault[] };
