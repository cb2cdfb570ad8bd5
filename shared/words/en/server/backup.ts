import { unreachable } from "#shared/outcome.ts";
import type { BackupTrouble } from "#shared/kitchen/model/server-problem.ts";
import type { Formats } from "#shared/words/formats.ts";

/** `npm run backup`, and backups before an upgrade. */
export const backup = (_format: Formats) => ({
  usage: `Takes a backup of the kitchen, with or without a server running.

  npm run backup                 into the backups' folder: TRAYTIDE_BACKUPS, or backups in the data folder
  npm run backup -- FOLDER       into another folder, which must be there
`,
  made: (file: string) => `Backup made: ${file}`,
  beforeUpgrade: "Taking a backup before the upgrade…",
  noKitchen: (folder: string) => `There is no kitchen in ${folder} to back up.`,
  trouble: (why: BackupTrouble, folder: string, detail: string): string => {
    switch (why) {
      case "folder-missing":
        return `The backups' folder ${folder} is not there: connect its disk, or make the folder.`;
      case "folder-lost-backups":
        return `None of the backups made before are in ${folder}: connect its disk. If you removed them yourself: npm run backup`;
      case "disk-full":
        return `The disk of the backups' folder ${folder} is full: free some space on it.`;
      case "read-only":
        return `The backups' folder ${folder} cannot be written: let the account that runs Traytide write there.`;
      case "damaged":
        return `No backup was made, because the copy is not whole. ${detail} To see more: npm run verify`;
      case "unknown":
        return `No backup was made: ${detail}`;
      default:
        return unreachable(why);
    }
  },
});

/** `npm run restore`. */
export const restore = (_format: Formats) => ({
  usage: `Puts a backup back. The server must be stopped; what is there now is set aside.

  npm run restore -- FILE            into the data folder
  npm run restore -- FILE FOLDER     into another one
`,
  noBackup: (file: string) =>
    `${file} is a kitchen's database, but no backup made by Traytide: npm run backup makes one. Nothing was changed.`,
  newer: (file: string) => `${file} was made by a newer Traytide: use that version. Nothing was changed.`,
  otherKitchen: (file: string, name: string | undefined, folder: string) =>
    `${file} is a backup of another kitchen${name === undefined ? "" : `, "${name}"`}, than the one in ${folder}: name an empty folder for it. Nothing was changed.`,
  unchanged: "Nothing was changed.",
  done: (folder: string) => `The backup is now the kitchen in ${folder}. Start the server as usual.`,
  replaced: (folder: string) => `What was there is in ${folder}; remove it once you no longer need it.`,
  codes: "Lead code and join code are those of the backup's time; devices that joined since then join again.",
});
