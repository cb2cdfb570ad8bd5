import { type Forecasts, NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import type { ForecastPatch } from "#shared/protocol/change.ts";

const TABLES = ["films", "trays", "orders", "places"] as const;
type TableName = (typeof TABLES)[number];
type Row<Name extends TableName> = Forecasts[Name][string];

/** Forecasts as last published, and what has changed since. */
export interface ForecastTables {
  /** As published. */
  current: () => Forecasts;
  /** As worked out so far. */
  latest: <Name extends TableName>(name: Name) => Forecasts[Name];
  /** Sets a row, or drops it; one that says the same changes nothing. */
  put: <Name extends TableName>(name: Name, key: string, row: Row<Name> | undefined) => void;
  putChange: (change: Forecasts["change"]) => void;
  /** What to publish, which then is current; undefined if nothing has changed. */
  take: (atMs: number) => ForecastPatch | undefined;
}

type Rows = { [Name in TableName]: Record<string, Row<Name>> };
type PatchRows = { [Name in TableName]: Record<string, Row<Name> | null> };

/** Makes empty tables. */
export function makeForecastTables(): ForecastTables {
  const rows: Rows = { films: {}, trays: {}, orders: {}, places: {} };
  let pending: PatchRows = { films: {}, trays: {}, orders: {}, places: {} };
  let change: Forecasts["change"];
  let isChangePending = false;
  let current = NO_FORECASTS;

  const put: ForecastTables["put"] = (name, key, row) => {
    const table: Record<string, typeof row> = rows[name];
    if (isSame(table[key], row)) return;
    const patch: Record<string, typeof row | null> = pending[name];
    if (row === undefined) delete table[key];
    else table[key] = row;
    patch[key] = row ?? null;
  };

  const take = (atMs: number): ForecastPatch | undefined => {
    const changed = TABLES.filter((name) => Object.keys(pending[name]).length > 0);
    if (changed.length === 0 && !isChangePending) return undefined;
    const published = Object.fromEntries(changed.map((name) => [name, { ...rows[name] }])) as Partial<Rows>;
    const { change: _, ...before } = current;
    current = { ...before, ...published, atMs, ...(change === undefined ? {} : { change }) };
    const parts = Object.fromEntries(changed.map((name) => [name, pending[name]])) as Partial<PatchRows>;
    const news = isChangePending ? { change: change ?? null } : {};
    pending = { films: {}, trays: {}, orders: {}, places: {} };
    isChangePending = false;
    return { atMs, ...parts, ...news };
  };

  return {
    current: () => current,
    latest: <Name extends TableName>(name: Name): Forecasts[Name] => rows[name] as Forecasts[Name],
    put,
    putChange: (next) => {
      if (isSame(change, next)) return;
      change = next;
      isChangePending = true;
    },
    take,
  };
}

/** Rows are plain and small, made by the same code: their text decides. */
const isSame = (a: unknown, b: unknown): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);
