import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { pageBytes } from "#server/backup/file-check.ts";

/** A database's pages as they lie on the disk: no table has to be whole for one of them to be read. */
export interface Pages {
  /** Bytes of a page that hold rows. */
  usable: number;
  count: number;
  /** Pages are numbered from 1. Undefined where there is none. */
  get: (page: number) => Buffer | undefined;
  close: () => void;
}

const USUAL_PAGE_BYTES = 4096;
const WAL_HEADER = 32;
const FRAME_HEADER = 24;

/** Opens a database file and what is committed in its write-ahead log. SQLite's file format, https://www.sqlite.org/fileformat.html */
export function openPages(file: string): Pages {
  const db = openSync(file, "r");
  const size = fstatSync(db).size;
  const header = Buffer.alloc(100);
  readSync(db, header, 0, header.length, 0);
  const wal = openWal(`${file}-wal`);
  const told = pageBytes(header);
  // The first page may be the damaged one.
  const isPageSize = told >= 512 && (told & (told - 1)) === 0;
  const bytes = wal?.bytes ?? (isPageSize ? told : USUAL_PAGE_BYTES);
  const count = Math.max(Math.ceil(size / bytes), ...(wal === undefined ? [] : wal.at.keys()));
  return {
    // Traytide leaves no bytes of a page unused.
    usable: bytes,
    count,
    get: (page) => {
      const inWal = wal?.at.get(page);
      const data = Buffer.alloc(bytes);
      const read =
        wal !== undefined && inWal !== undefined
          ? readSync(wal.opened, data, 0, bytes, inWal)
          : readSync(db, data, 0, bytes, (page - 1) * bytes);
      return page < 1 || read < bytes ? undefined : data;
    },
    close: () => {
      closeSync(db);
      if (wal !== undefined) closeSync(wal.opened);
    },
  };
}

interface Wal {
  opened: number;
  bytes: number;
  /** Where the newest committed copy of a page begins. */
  at: ReadonlyMap<number, number>;
}

/** The committed frames of a write-ahead log, up to the first that is not whole. */
function openWal(file: string): Wal | undefined {
  let opened: number;
  try {
    opened = openSync(file, "r");
  } catch {
    return undefined;
  }
  const header = Buffer.alloc(WAL_HEADER);
  const isRead = readSync(opened, header, 0, WAL_HEADER, 0) === WAL_HEADER;
  const magic = header.readUInt32BE(0);
  if (!isRead || (magic !== 0x377f0682 && magic !== 0x377f0683)) {
    closeSync(opened);
    return undefined;
  }
  const bytes = header.readUInt32BE(8);
  const sum = checksum(magic === 0x377f0683);
  sum.add(header.subarray(0, 24));
  const at = new Map<number, number>();
  let uncommitted = new Map<number, number>();
  const frame = Buffer.alloc(FRAME_HEADER + bytes);
  for (let offset = WAL_HEADER; readSync(opened, frame, 0, frame.length, offset) === frame.length;) {
    sum.add(frame.subarray(0, 8));
    sum.add(frame.subarray(FRAME_HEADER));
    const isOfThis = frame.compare(header, 16, 24, 8, 16) === 0;
    if (!isOfThis || !sum.is(frame.readUInt32BE(16), frame.readUInt32BE(20))) break;
    uncommitted.set(frame.readUInt32BE(0), offset + FRAME_HEADER);
    if (frame.readUInt32BE(4) !== 0) {
      for (const [page, begins] of uncommitted) at.set(page, begins);
      uncommitted = new Map();
    }
    offset += frame.length;
  }
  return { opened, bytes, at };
}

/** The write-ahead log's running checksum over words of 32 bits. */
function checksum(isBigEndian: boolean) {
  let [a, b] = [0, 0];
  return {
    add: (data: Buffer) => {
      for (let k = 0; k < data.length; k += 8) {
        a = (a + (isBigEndian ? data.readUInt32BE(k) : data.readUInt32LE(k)) + b) >>> 0;
        b = (b + (isBigEndian ? data.readUInt32BE(k + 4) : data.readUInt32LE(k + 4)) + a) >>> 0;
      }
    },
    is: (one: number, other: number) => a === one && b === other,
  };
}
