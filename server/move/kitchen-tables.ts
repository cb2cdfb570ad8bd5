/** A table of a kitchen as every database keeps it; rows are carried from one to another as they are. */
export interface KitchenTable {
  name: "events" | "commands" | "set_aside" | "devices" | "values";
  /** Rows are read in its order. */
  key: string;
  columns: readonly string[];
}

/** Snapshots are left out: they are made again from the events. */
export const KITCHEN_TABLES: readonly KitchenTable[] = [
  { name: "events", key: "seq", columns: ["seq", "type", "event", "hash"] },
  { name: "commands", key: "command_id", columns: ["command_id", "answer", "device_id", "body_sha256"] },
  { name: "set_aside", key: "seq", columns: ["seq", "type", "reason", "event"] },
  {
    name: "devices",
    key: "device_id",
    columns: [
      "device_id",
      "token_sha256",
      "kind",
      "person_id",
      "may_lead",
      "created_ms",
      "seen_ms",
      "forgotten_ms",
    ],
  },
  { name: "values", key: "key", columns: ["key", "value"] },
];

/** A row by its columns; whole numbers, texts, nulls. `may_lead` is 0 or 1. */
export type Row = Readonly<Record<string, string | number | null>>;

/** A whole kitchen, to be read from. */
export interface KitchenSource {
  epoch: string;
  /** In pages, by the table's key. */
  rows: (table: KitchenTable) => AsyncIterable<readonly Row[]>;
  photos: () => AsyncIterable<{ designId: string; jpeg: Buffer }>;
}

/** Where a kitchen is to be written. */
export interface KitchenTarget {
  insert: (table: KitchenTable, rows: readonly Row[]) => Promise<void>;
  putPhoto: (designId: string, jpeg: Buffer) => Promise<void>;
  /** What was written, to be read again. */
  written: KitchenSource;
}

/** How many of each there are, and how far the log came. */
export interface Carried {
  events: number;
  answers: number;
  devices: number;
  photos: number;
  seq: number;
  hash: string;
}
