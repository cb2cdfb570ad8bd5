import type { Sqlite } from "#server/log/sqlite.ts";

/** Kept only once a log was put back or salvaged: until then the kitchen's first epoch is its id. */
export const KITCHEN_ID = "kitchen id";
const EPOCH = "epoch";

const keptIn = (db: Sqlite, key: string): string | undefined =>
  db.prepare<[string], { value: string }>("SELECT value FROM meta WHERE key = ?").get(key)?.value;

/** Names a kitchen, however often its log was put back; undefined in a database that no server has opened yet. */
export const kitchenIdOf = (db: Sqlite): string | undefined => keptIn(db, KITCHEN_ID) ?? keptIn(db, EPOCH);

export const epochOf = (db: Sqlite): string | undefined => keptIn(db, EPOCH);

/** The log goes on as another one of the same kitchen: screens then take the whole board. */
export function setEpoch(db: Sqlite, kitchenId: string, epoch: string): void {
  const put = db.prepare("INSERT OR REPLACE INTO meta (key, value) VALUES (?, ?)");
  put.run(KITCHEN_ID, kitchenId);
  put.run(EPOCH, epoch);
}
