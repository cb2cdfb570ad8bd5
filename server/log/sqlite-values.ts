import type { KitchenDb } from "./kitchen-db.ts";
import type { ValueStore } from "./store.ts";

/** A value kept with the log, where there is one. */
const valueOf = (db: KitchenDb, key: string): string | undefined =>
  db.prepare<[string], { value: string }>("SELECT value FROM meta WHERE key = ?").get(key)?.value;

/** A value kept with the log, made on first asking. */
export function getOrCreate(db: KitchenDb, key: string, make: () => string): string {
  const held = valueOf(db, key);
  if (held !== undefined) return held;
  const value = make();
  db.prepare("INSERT INTO meta (key, value) VALUES (?, ?)").run(key, value);
  return value;
}

/** The values kept in a kitchen's database. */
export function sqliteValues(db: KitchenDb): ValueStore {
  const write = db.prepare("INSERT OR REPLACE INTO meta (key, value) VALUES (?, ?)");
  const remove = db.prepare("DELETE FROM meta WHERE key = ?");
  const put = db.transaction((values: Readonly<Record<string, string | undefined>>): void => {
    for (const [key, value] of Object.entries(values)) {
      if (value === undefined) remove.run(key);
      else write.run(key, value);
    }
  });
  return {
    get: async (key) => valueOf(db, key),
    getOrCreate: async (key, make) => getOrCreate(db, key, make),
    put: async (values) => {
      // What is removed is overwritten, not left in a free page.
      db.pragma("secure_delete = ON");
      put(values);
    },
  };
}
