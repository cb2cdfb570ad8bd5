import type { Say } from "#server/words.ts";
import type { BackupFailure } from "./make-backup.ts";

/** Why no backup was made, as one sentence or two. */
export const troubleWords =
  ({ trouble, faults, message }: BackupFailure, path: string): Say =>
  ({ server }) => {
    const [fault] = faults;
    // The message is the database's file where the trouble is in it.
    const detail = fault === undefined ? message : server.verify.fault(fault, message);
    return server.backup.trouble(trouble, path, detail);
  };
