import { statSync } from "node:fs";
import { FolderGone } from "./disk-trouble.ts";
import type { EventLog } from "./event-log.ts";

/** Says whether the files a database has open are still the ones under their names. Once they are not, they never are again. */
export interface FolderGuard {
  isThere: () => boolean;
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
  };
}

/** The log, which acknowledges nothing that went into a file that is gone. */
export function guardedLog(log: EventLog, guard: FolderGuard): EventLog {
  const mustBeThere = (): void => {
    if (!guard.isThere()) throw new FolderGone("the data folder was deleted or replaced");
  };
  return {
    ...log,
    append: async (...given) => {
      mustBeThere();
      const hashes = await log.append(...given);
      mustBeThere();
      return hashes;
    },
  };
}
