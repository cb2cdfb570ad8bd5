import { accessSync, constants, statfsSync } from "node:fs";
import { type Say, WordedError } from "#server/words.ts";
import { unreachable } from "#shared/outcome.ts";
import type { SaveTrouble } from "#shared/kitchen/model/server-problem.ts";

/** Less than this free is a full disk: SQLite and its log write whole pages, bytes. */
const FULL_BELOW_BYTES = 256 * 1024;

/** The database file, or the folder it is in, was deleted or replaced while the server had it open. */
export class FolderGone extends Error {
  override name = "FolderGone";
}

/** What can be wrong with a folder. */
type FolderTrouble = Exclude<SaveTrouble, "database-away" | "database-read-only">;

/** Why something could not be saved in a folder, as far as the error and the folder tell. */
export function saveTroubleOf(error: unknown, folder?: string): FolderTrouble {
  for (let at = error; at instanceof Error; at = at.cause) {
    if (at instanceof FolderGone) return "folder-gone";
    const code = String((at as { code?: unknown }).code);
    if (code === "SQLITE_FULL" || code === "ENOSPC" || code === "EDQUOT") return "disk-full";
    if (code.startsWith("SQLITE_READONLY") || ["EACCES", "EROFS", "EPERM"].includes(code)) return "read-only";
    // A disk error, or a file that cannot be opened, has many causes: the folder itself says which.
    if (folder !== undefined && (code.startsWith("SQLITE_IOERR") || code === "SQLITE_CANTOPEN"))
      return troubleOf(folder);
  }
  return "unknown";
}

function troubleOf(folder: string): FolderTrouble {
  try {
    const { bavail, bsize } = statfsSync(folder);
    if (bavail * bsize < FULL_BELOW_BYTES) return "disk-full";
    accessSync(folder, constants.W_OK);
    return "unknown";
  } catch {
    return "read-only";
  }
}

/** What keeps a data folder from being opened and what to do; undefined where it is none of these. */
export function openingTrouble(error: unknown, folder: string): Say | undefined {
  const trouble = saveTroubleOf(error, folder);
  switch (trouble) {
    case "disk-full":
      return ({ server }) => server.data.diskFull(folder);
    case "read-only":
      return ({ server }) => server.data.readOnly(folder);
    case "folder-gone":
    case "unknown":
      return error instanceof WordedError ? error.say : undefined;
    default:
      return unreachable(trouble);
  }
}
