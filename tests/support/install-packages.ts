import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

export const succeeds = (command: string, ...args: string[]): boolean =>
  spawnSync(command, args, { stdio: ["ignore", "ignore", "inherit"] }).status === 0;

/** Debian's packages, where this process may install them; options of apt-get go first. */
export function installPackages(...names: readonly string[]): boolean {
  if (process.getuid?.() !== 0 || !existsSync("/usr/bin/apt-get")) return false;
  return succeeds("apt-get", "update", "-qq") && succeeds("apt-get", "install", "-y", "-qq", ...names);
}
