import { closeSync, existsSync, openSync, readSync, statSync } from "node:fs";
import type { FileFault } from "#shared/words/en/server/verify.ts";

const MAGIC = "SQLite format 3\0";
const HEADER_BYTES = 100;

/** Looks at a database's header and length. Not to be asked of a file that this process has open: closing it would drop its locks. */
export function fileFault(file: string): FileFault | undefined {
  const facts = statSync(file, { throwIfNoEntry: false });
  if (facts === undefined || !facts.isFile()) return { code: "no-file" };
  if (facts.size === 0) return { code: "empty-file" };
  const header = Buffer.alloc(HEADER_BYTES);
  const opened = openSync(file, "r");
  try {
    readSync(opened, header, 0, HEADER_BYTES, 0);
  } finally {
    closeSync(opened);
  }
  const isBegun = MAGIC.startsWith(header.toString("latin1", 0, Math.min(facts.size, MAGIC.length)));
  if (!isBegun) return { code: "no-database" };
  // What a write-ahead log holds is not in the file's length yet.
  if (existsSync(`${file}-wal`) && statSync(`${file}-wal`).size > 0) return undefined;
  const wholeBytes = pageBytes(header) * header.readUInt32BE(28);
  if (facts.size < Math.max(wholeBytes, HEADER_BYTES))
    return { code: "truncated", bytes: facts.size, wholeBytes };
  return undefined;
}

/** The size of a page by a database's header; 1 stands for 65,536. */
export const pageBytes = (header: Buffer): number => {
  const bytes = header.readUInt16BE(16);
  return bytes === 1 ? 65_536 : bytes;
};
