import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** Where Traytide is installed, from its source or as it was built. */
export function projectRoot(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, "package.json"))) folder = dirname(folder);
  return folder;
}

export const versionOf = (root: string): string =>
  (JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string }).version;
