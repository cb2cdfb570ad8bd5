import { statSync } from "node:fs";
import { FolderGone } from "./disk-trouble.ts";
import type { EventLog } from "./event-log.ts";

/** Whether the files a database has open are still the ones under their names. Once they are not, they never are again. */
export interface FolderGuard {
  /** Looks. */
  isThere: () => boolean;
  /** Whether they were not, the last time it was looked. */
  isGone: () => boolean;
}

const identity = (file: string): string | undefined => {
  try {
    const { dev, ino } = statSync(file, { bigint: true });
    return `${dev} ${ino}`;
  } catch {
    return undefined;
  }
};

/** Watches a database that is open, and its write-ahead log: what is written to a deleted file is lost with the process. */
export function guardFolder(file: string): FolderGuard {
  const files = [file, `${file}-wal`].map((name) => ({ name, opened: identity(name) }));
  let isGone = false;
  return {
    isThere: () => {
      isGone ||= files.some(({ name, opened }) => opened !== undefined && identity(name) !== opened);
      return !isGone;
    },
    isGone: () => isGone,
  };
}

/** The log, which acknowledges nothing that went into a file that is gone, and writes nothing more into one known to be. */
export function guardedLog(log: EventLog, guard: FolderGuard): EventLog {
  const gone = (): FolderGone => new FolderGone("the data folder was deleted or replaced");
  return {
    ...log,
    append: async (...given) => {
      if (guard.isGone()) throw gone();
      const hashes = await log.append(...given);
      if (!guard.isThere()) throw gone();
      return hashes;
    },
  };
}
