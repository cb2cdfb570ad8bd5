import { existsSync } from "node:fs";
import { join } from "node:path";
import { backupsFolder } from "#server/backup/backup-folder.ts";
import { troubleWords } from "#server/backup/failure-words.ts";
import { BackupFailure, makeBackup } from "#server/backup/make-backup.ts";
import { projectRoot, versionOf } from "#server/project.ts";
import { WordedError } from "#server/words.ts";
import { runCommand } from "./command.ts";
import { heldLines } from "./held-lines.ts";

await runCommand(
  { usage: ({ server }) => server.backup.usage, options: {}, most: 1 },
  async ({ words, named, dataFolder, backups, print }) => {
    const folder = backupsFolder(dataFolder, named[0] ?? backups);
    if (!existsSync(join(dataFolder, "kitchen.db")))
      throw new WordedError(({ server }) => server.backup.noKitchen(dataFolder));
    const { server } = words;
    try {
      const { file, bytes, sha256, held } = await makeBackup({
        dataFolder,
        folder,
        reason: "by-hand",
        app: versionOf(projectRoot()),
        nowMs: Date.now(),
        isFolderSure: true,
      });
      print(server.backup.made(file));
      const more = [
        [server.verify.sizeLabel, server.verify.size(bytes)],
        [server.verify.hashLabel, sha256],
      ] as const;
      for (const line of heldLines(held, words, more)) print(line);
      return true;
    } catch (error) {
      if (!(error instanceof BackupFailure)) throw error;
      throw new WordedError(troubleWords(error, folder.path), { cause: error });
    }
  },
);
// The copied database is left open, so that nothing of it is changed by closing it.
process.exit();
