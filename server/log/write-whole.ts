import { closeSync, fsyncSync, openSync, renameSync, writeSync } from "node:fs";
import { dirname } from "node:path";

/** Writes a small file beside and moves it into place, synced: the old text or the new one, never half of it. */
export function writeWhole(file: string, text: string): void {
  const fresh = `${file}.new`;
  const opened = openSync(fresh, "w", 0o600);
  try {
    writeSync(opened, text);
    fsyncSync(opened);
  } finally {
    closeSync(opened);
  }
  renameSync(fresh, file);
}

/** Waits until a file is on the disk, and then until its new name is. */
export function moveSynced(from: string, to: string): void {
  syncFile(from);
  renameSync(from, to);
  syncNames(dirname(to));
}

export function syncFile(file: string): void {
  const opened = openSync(file, "r+");
  try {
    fsyncSync(opened);
  } finally {
    closeSync(opened);
  }
}

/** Waits until the names in a folder are on the disk. Windows has no such thing. */
export function syncNames(folder: string): void {
  if (process.platform === "win32") return;
  const opened = openSync(folder, "r");
  try {
    fsyncSync(opened);
  } finally {
    closeSync(opened);
  }
}
