import { nanoid } from "nanoid";
import { restore } from "#server/backup/restore.ts";
import { runCommand } from "./command.ts";
import { heldLines } from "./held-lines.ts";

await runCommand(
  { usage: ({ server }) => server.restore.usage, options: {}, most: 2 },
  async ({ words, named, dataFolder, print }) => {
    const [file, folder = dataFolder] = named;
    const { server } = words;
    if (file === undefined) {
      console.error(server.restore.usage);
      process.exitCode = 2;
      return true;
    }
    const { held, replaced } = restore(file, folder, { newId: nanoid, nowMs: Date.now() });
    print(server.restore.done(folder));
    for (const line of heldLines(held, words, [])) print(line);
    if (replaced !== undefined) print(server.restore.replaced(replaced));
    print(server.restore.codes);
    return true;
  },
);
