import type { Formats } from "#shared/words/formats.ts";

/** Troubles with the data folder and the database in it, for whoever starts the server. */
export const data = (format: Formats) => ({
  inUse: (folder: string) =>
    `Another Traytide server has the data folder ${folder} open. Stop it first, or give this one a folder of its own with TRAYTIDE_DATA.`,
  diskFull: (folder: string) =>
    `The disk of the data folder ${folder} is full. Free some space on it, then start again: nothing in the folder was changed.`,
  readOnly: (folder: string) =>
    `The data folder ${folder} cannot be written. Let the account that runs Traytide write there, or choose another folder with TRAYTIDE_DATA.`,
  emptied: (folder: string, events: number) =>
    `The log in ${folder} is empty, though it held ${format.number(events)} events. Put a copy of the data folder back. To begin an empty kitchen instead, remove high-water.json there.`,
  damaged: (detail: string) =>
    `kitchen.db in the data folder is damaged on disk, so nothing was opened or changed. Put a copy of it back (${detail}).`,
  cannotOpen: (file: string, reason: string) => `Cannot open the log ${file}: ${reason}`,
  newer: (tables: number, known: number) =>
    `it was made by a newer Traytide (tables ${tables}, this one knows ${known})`,
  openToOthers: (folder: string) =>
    `The data folder ${folder} is open to other accounts and not the kitchen's alone: give it a folder of its own.`,
  cannotClose: (path: string, reason: string) =>
    `${path} may be read by other accounts, and that cannot be changed: ${reason}`,
});
