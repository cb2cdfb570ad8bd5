import { mkdir, readdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { asId, type DesignId } from "#shared/ids.ts";
import type { PhotoStore } from "./store.ts";

const EXTENSION = ".jpg";

/** Photos of designs, a file each. The folder is made with the first. Ids are safe as file names by their schema. */
export function photoFiles(folder: string): PhotoStore {
  const fileOf = (designId: DesignId): string => join(folder, `${designId}${EXTENSION}`);
  return {
    get: (designId) =>
      readFile(fileOf(designId)).catch((error: NodeJS.ErrnoException) => {
        if (error.code === "ENOENT") return undefined;
        throw error;
      }),
    put: async (designId, jpeg) => {
      await mkdir(folder, { recursive: true, mode: 0o700 });
      const written = `${fileOf(designId)}.new`;
      await writeFile(written, jpeg, { mode: 0o600 });
      await rename(written, fileOf(designId));
    },
    remove: (designId) => rm(fileOf(designId), { force: true }),
    ids: async () =>
      (await readdir(folder).catch(() => []))
        .filter((file) => file.endsWith(EXTENSION))
        .map((file) => asId<DesignId>(file.slice(0, -EXTENSION.length))),
  };
}
