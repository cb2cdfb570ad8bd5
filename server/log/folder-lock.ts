import { join } from "node:path";
import { WordedError } from "#server/words.ts";
import { openSqlite, SqliteFailure } from "./sqlite.ts";

/** How long to wait for a server that is just closing. */
const PATIENCE_MS = 1500;

/**
 * Takes a data folder for this process; the returned function gives it back. Held as an open exclusive transaction,
 * so the system lets go of it even if the process is killed. Throws, in words, when another server has it.
 */
export function lockFolder(folder: string): () => void {
  const db = openSqlite(join(folder, "lock.db"), PATIENCE_MS);
  try {
    db.exec("BEGIN EXCLUSIVE");
  } catch (error) {
    db.close();
    if (error instanceof SqliteFailure && error.code.startsWith("SQLITE_BUSY"))
      throw new WordedError(({ server }) => server.data.inUse(folder), { cause: error });
    throw error;
  }
  return () => db.close();
}
