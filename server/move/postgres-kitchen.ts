import { WordedError } from "#server/words.ts";
import type { PostgresAddress } from "#server/postgres/address.ts";
import { connectPostgres, type Postgres } from "#server/postgres/connection.ts";
import { readyTables } from "#server/postgres/tables.ts";
import { openingFault } from "#server/postgres/trouble.ts";
import type { KitchenSource, KitchenTable, KitchenTarget, Row } from "./kitchen-tables.ts";

const PAGE = 1000;
/** A server that was not seen for so long is not there any more. */
const ALIVE = "at > clock_timestamp() - interval '10 seconds'";

const sqlName = ({ name }: KitchenTable): string => `traytide.${name === "values" ? "kept_values" : name}`;
/** Numbers come as texts, where they may be larger than JavaScript's. */
const NUMBERS = new Set(["seq", "may_lead", "created_ms", "seen_ms", "forgotten_ms"]);

const carried = (row: Record<string, string | number | boolean | null>): Row =>
  Object.fromEntries(
    Object.entries(row).map(([column, value]) => [
      column,
      value !== null && NUMBERS.has(column) ? Number(value) : (value as string | null),
    ]),
  );

function sourceOf(query: Postgres["query"], kitchen: string, epoch: string): KitchenSource {
  return {
    epoch,
    rows: async function* (table) {
      const { key, columns } = table;
      const byKey = NUMBERS.has(key) ? key : `${key} COLLATE "C"`;
      const read = async (after: string | number): Promise<Row[]> => {
        const { rows } = await query<Record<string, string>>(
          `SELECT ${columns.join(", ")} FROM ${sqlName(table)} WHERE kitchen = $1 AND ${byKey} > $2 ORDER BY ${byKey} LIMIT ${PAGE}`,
          [kitchen, after],
        );
        return rows.map(carried);
      };
      const start = NUMBERS.has(key) ? 0 : "";
      for (let rows = await read(start); rows.length > 0; rows = await read(rows.at(-1)?.[key] ?? start))
        yield rows;
    },
    photos: async function* () {
      const { rows } = await query<{ design_id: string }>(
        "SELECT design_id FROM traytide.photos WHERE kitchen = $1 ORDER BY design_id",
        [kitchen],
      );
      for (const { design_id: designId } of rows) {
        const { rows: found } = await query<{ jpeg: Buffer }>(
          "SELECT jpeg FROM traytide.photos WHERE kitchen = $1 AND design_id = $2",
          [kitchen, designId],
        );
        if (found[0] !== undefined) yield { designId, jpeg: found[0].jpeg };
      }
    },
  };
}

/** Connects, and words whatever is in the way. */
async function connected<Result>(
  address: PostgresAddress,
  act: (query: Postgres["query"]) => Promise<Result>,
): Promise<Result> {
  const db = connectPostgres(address.url);
  try {
    await readyTables(db).catch((error: unknown) => {
      throw openingFault(error, address);
    });
    return await db.transaction(act);
  } finally {
    await db.close();
  }
}

async function refuseInUse(query: Postgres["query"], { kitchen, shown }: PostgresAddress): Promise<void> {
  const { rows } = await query(`SELECT 1 FROM traytide.presence WHERE kitchen = $1 AND ${ALIVE}`, [kitchen]);
  if (rows.length > 0)
    throw new WordedError(({ server }) => server.move.inUse(server.postgres.keptAt(shown, kitchen)));
}

/** Reads a kitchen in PostgreSQL as it stands at one moment. While servers have it open only where `mayBeOpen`, as for a copy. */
export const fromPostgres = <Result>(
  address: PostgresAddress,
  act: (source: KitchenSource) => Promise<Result>,
  { mayBeOpen = false } = {},
): Promise<Result> =>
  connected(address, async (query) => {
    const { kitchen, shown } = address;
    await query("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ");
    if (!mayBeOpen) await refuseInUse(query, address);
    const { rows } = await query<{ epoch: string }>(
      "SELECT epoch FROM traytide.kitchens WHERE kitchen = $1",
      [kitchen],
    );
    if (rows[0] === undefined)
      throw new WordedError(({ server }) => server.move.noKitchen(server.postgres.keptAt(shown, kitchen)));
    return act(sourceOf(query, kitchen, rows[0].epoch));
  });

/** Puts a kitchen into PostgreSQL, in one transaction. */
export const intoPostgres = <Result extends { seq: number; hash: string }>(
  address: PostgresAddress,
  epoch: string,
  act: (target: KitchenTarget) => Promise<Result>,
): Promise<Result> =>
  connected(address, async (query) => {
    const { kitchen, shown } = address;
    const { rows } = await query<{ held: boolean }>(
      "SELECT seq > 0 OR EXISTS (SELECT 1 FROM traytide.devices WHERE kitchen = $1) AS held FROM traytide.kitchens WHERE kitchen = $1 FOR UPDATE",
      [kitchen],
    );
    if (rows[0]?.held === true)
      throw new WordedError(({ server }) => server.move.held(server.postgres.keptAt(shown, kitchen)));
    await refuseInUse(query, address);
    await query("DELETE FROM traytide.kept_values WHERE kitchen = $1", [kitchen]);
    await query(
      "INSERT INTO traytide.kitchens (kitchen, epoch) VALUES ($1, $2) ON CONFLICT (kitchen) DO UPDATE SET epoch = excluded.epoch",
      [kitchen, epoch],
    );
    const result = await act({
      insert: (table, page) => insert(query, kitchen, table, page),
      putPhoto: async (designId, jpeg) => {
        await query("INSERT INTO traytide.photos (kitchen, design_id, jpeg) VALUES ($1, $2, $3)", [
          kitchen,
          designId,
          jpeg,
        ]);
      },
      written: sourceOf(query, kitchen, epoch),
    });
    await query("UPDATE traytide.kitchens SET seq = $2, hash = $3 WHERE kitchen = $1", [
      kitchen,
      result.seq,
      result.hash,
    ]);
    return result;
  });

async function insert(
  query: Postgres["query"],
  kitchen: string,
  table: KitchenTable,
  rows: readonly Row[],
): Promise<void> {
  if (rows.length === 0) return;
  const { columns } = table;
  // A list a column: one statement a page, however many rows.
  const lists = columns.map((column) => rows.map((row) => row[column] ?? null));
  const typed = columns.map((column, k) => `$${k + 2}::${NUMBERS.has(column) ? "bigint" : "text"}[]`);
  const chosen = columns.map((column) => (column === "may_lead" ? "may_lead = 1" : column));
  await query(
    `INSERT INTO ${sqlName(table)} (kitchen, ${columns.join(", ")}) SELECT $1, ${chosen.join(", ")} FROM unnest(${typed.join(", ")}) AS one (${columns.join(", ")})`,
    [kitchen, ...lists],
  );
}
