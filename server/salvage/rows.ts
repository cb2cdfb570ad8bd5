import type { Pages } from "./pages.ts";

export type Value = null | number | string | Uint8Array;

/** A row as it lies on a page. */
export interface Row {
  /** Of a table by number; absent in one that is kept in the order of its first column. */
  rowid?: number;
  values: readonly Value[];
}

const TABLE_LEAF = 0x0d;
const INDEX_LEAF = 0x0a;
const INDEX_INTERIOR = 0x02;
/** No row of a kitchen's is longer: a length beyond it was never one. */
const LONGEST_BYTES = 256 * 1024 * 1024;
const FILE_HEADER = 100;

/** The rows on a page that are whole; none of a page that holds none, or junk. Never throws. */
export function rowsOn(pages: Pages, page: number): Row[] {
  const data = pages.get(page);
  if (data === undefined) return [];
  const start = page === 1 ? FILE_HEADER : 0;
  const kind = data[start];
  if (kind !== TABLE_LEAF && kind !== INDEX_LEAF && kind !== INDEX_INTERIOR) return [];
  const cells = data.readUInt16BE(start + 3);
  const pointers = start + (kind === INDEX_INTERIOR ? 12 : 8);
  const rows: Row[] = [];
  for (let k = 0; k < cells && pointers + 2 * k + 2 <= data.length; k += 1) {
    try {
      rows.push(rowAt(pages, data, kind, data.readUInt16BE(pointers + 2 * k)));
    } catch {
      // Not whole: what is missing is found out from the numbers of the others.
    }
  }
  return rows;
}

function rowAt(pages: Pages, data: Buffer, kind: number, at: number): Row {
  const length = varint(data, kind === INDEX_INTERIOR ? at + 4 : at);
  if (length.value > LONGEST_BYTES) throw new RangeError("longer than any row");
  if (kind !== TABLE_LEAF)
    return { values: valuesOf(payload(pages, data, length.next, length.value, false)) };
  const rowid = varint(data, length.next);
  return { rowid: rowid.value, values: valuesOf(payload(pages, data, rowid.next, length.value, true)) };
}

/** A row's bytes, from its page and those it runs over to. */
function payload(pages: Pages, data: Buffer, at: number, length: number, isTable: boolean): Buffer {
  const { usable } = pages;
  const most = isTable ? usable - 35 : Math.floor(((usable - 12) * 64) / 255) - 23;
  if (length <= most) return part(data, at, length);
  const least = Math.floor(((usable - 12) * 32) / 255) - 23;
  const spread = least + ((length - least) % (usable - 4));
  const local = spread <= most ? spread : least;
  const parts = [part(data, at, local)];
  let left = length - local;
  let next = part(data, at + local, 4).readUInt32BE(0);
  while (left > 0) {
    const over = pages.get(next);
    if (over === undefined) throw new RangeError("runs over to no page");
    const here = Math.min(left, usable - 4);
    parts.push(part(over, 4, here));
    left -= here;
    next = over.readUInt32BE(0);
  }
  if (next !== 0) throw new RangeError("goes on after its end");
  return Buffer.concat(parts, length);
}

function part(data: Buffer, at: number, length: number): Buffer {
  if (at + length > data.length) throw new RangeError("beyond its page");
  return data.subarray(at, at + length);
}

const text = new TextDecoder("utf-8", { fatal: true });
/** Bytes of an integer by its serial type. */
const INTEGER_BYTES = [0, 1, 2, 3, 4, 6, 8];

/** A row's columns; throws where its lengths do not add up, as those of junk hardly ever do. */
function valuesOf(record: Buffer): Value[] {
  const header = varint(record, 0);
  const values: Value[] = [];
  let at = header.value;
  for (let k = header.next; k < header.value;) {
    const type = varint(record, k);
    k = type.next;
    const length = lengthOf(type.value);
    values.push(valueOf(type.value, part(record, at, length)));
    at += length;
  }
  if (at !== record.length) throw new RangeError("not as long as it says");
  return values;
}

function lengthOf(type: number): number {
  if (type >= 12) return Math.floor((type - 12) / 2);
  if (type === 7) return 8;
  if (type === 8 || type === 9) return 0;
  const bytes = INTEGER_BYTES[type];
  if (bytes === undefined) throw new RangeError("no type of value");
  return bytes;
}

function valueOf(type: number, data: Buffer): Value {
  if (type === 0) return null;
  if (type === 7) return data.readDoubleBE(0);
  if (type >= 12) return type % 2 === 0 ? new Uint8Array(data) : text.decode(data);
  if (type === 8 || type === 9) return type - 8;
  return data.length === 8 ? Number(data.readBigInt64BE(0)) : data.readIntBE(0, data.length);
}

/** A number of one to nine bytes, seven bits each; the ninth has eight. */
function varint(data: Buffer, at: number): { value: number; next: number } {
  let value = 0;
  for (let k = 0; k < 9; k += 1) {
    const byte = data[at + k];
    if (byte === undefined) throw new RangeError("ends within a number");
    if (k === 8) return { value: value * 256 + byte, next: at + 9 };
    value = value * 128 + (byte & 0x7f);
    if (byte < 0x80) return { value, next: at + k + 1 };
  }
  throw new RangeError("no number");
}
