import { chmodSync, existsSync, mkdirSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { errorMessage } from "#server/error-message.ts";
import type { Report } from "#server/words.ts";

/** What Traytide puts into its data folder; SQLite adds files of these names. */
const OURS = /^(kitchen|lock)\.db/;

/**
 * Makes a data folder that only this account can look into, and closes one that is wider: the kitchen's files always, the folder
 * itself where it is empty or a kitchen's already. What stays open is said, and the kitchen opens all the same. POSIX rights.
 */
export function openPrivateFolder(folder: string, report: Report): void {
  // Whatever this process makes from now on is its own account's.
  process.umask(0o077);
  if (!existsSync(folder)) return void mkdirSync(folder, { recursive: true, mode: 0o700 });
  const names = readdirSync(folder);
  for (const name of names.filter((one) => OURS.test(one))) close(join(folder, name), 0o600, report);
  // One that all accounts share (/tmp) is never closed to them.
  const isShared = (statSync(folder).mode & 0o1000) !== 0;
  if (!isShared && (names.length === 0 || names.includes("kitchen.db"))) close(folder, 0o700, report);
  else if (isOpenToOthers(folder)) report(({ server }) => server.data.openToOthers(folder));
}

const isOpenToOthers = (path: string): boolean => (statSync(path).mode & 0o077) !== 0;

function close(path: string, mode: number, report: Report): void {
  try {
    if (isOpenToOthers(path)) chmodSync(path, mode);
  } catch (error) {
    report(({ server }) => server.data.cannotClose(path, errorMessage(error)));
  }
}
