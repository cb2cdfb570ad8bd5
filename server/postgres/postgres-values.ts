import { asId, type DesignId } from "#shared/ids.ts";
import type { PhotoStore, ValueStore } from "#server/log/store.ts";
import type { Postgres } from "./connection.ts";

/** The values a kitchen keeps in PostgreSQL. */
export function postgresValues(db: Postgres, kitchen: string): ValueStore {
  async function get(key: string): Promise<string | undefined> {
    const { rows } = await db.query<{ value: string }>(
      "SELECT value FROM traytide.kept_values WHERE kitchen = $1 AND key = $2",
      [kitchen, key],
    );
    return rows[0]?.value;
  }
  return {
    get,
    getOrCreate: async (key, make) => {
      const held = await get(key);
      if (held !== undefined) return held;
      const value = make();
      await db.query("INSERT INTO traytide.kept_values VALUES ($1, $2, $3) ON CONFLICT DO NOTHING", [
        kitchen,
        key,
        value,
      ]);
      return (await get(key)) ?? value;
    },
    put: (values) =>
      db.transaction(async (query) => {
        for (const [key, value] of Object.entries(values)) {
          if (value === undefined)
            await query("DELETE FROM traytide.kept_values WHERE kitchen = $1 AND key = $2", [kitchen, key]);
          else
            await query(
              "INSERT INTO traytide.kept_values VALUES ($1, $2, $3) ON CONFLICT (kitchen, key) DO UPDATE SET value = excluded.value",
              [kitchen, key, value],
            );
        }
      }),
  };
}

/** Photos of designs in PostgreSQL, where each server of a kitchen finds them. */
export function postgresPhotos(db: Postgres, kitchen: string): PhotoStore {
  return {
    get: async (designId) => {
      const { rows } = await db.query<{ jpeg: Buffer }>(
        "SELECT jpeg FROM traytide.photos WHERE kitchen = $1 AND design_id = $2",
        [kitchen, designId],
      );
      return rows[0]?.jpeg;
    },
    put: async (designId, jpeg) => {
      await db.query(
        "INSERT INTO traytide.photos VALUES ($1, $2, $3) ON CONFLICT (kitchen, design_id) DO UPDATE SET jpeg = excluded.jpeg",
        [kitchen, designId, jpeg],
      );
    },
    remove: async (designId) => {
      await db.query("DELETE FROM traytide.photos WHERE kitchen = $1 AND design_id = $2", [
        kitchen,
        designId,
      ]);
    },
    ids: async () => {
      const { rows } = await db.query<{ design_id: string }>(
        "SELECT design_id FROM traytide.photos WHERE kitchen = $1",
        [kitchen],
      );
      return rows.map((row) => asId<DesignId>(row.design_id));
    },
  };
}
