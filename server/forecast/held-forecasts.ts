import { type Forecasts, NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import type { ForecastPatch } from "#shared/protocol/change.ts";

/** The forecasts as patches tell them. */
export interface HeldForecasts {
  current: () => Forecasts;
  put: (patch: ForecastPatch) => void;
}

type TableName = "films" | "trays" | "orders" | "places";
type Tables = { [Name in TableName]: Record<string, Forecasts[Name][string]> };
const noRows = (): Tables => ({ films: {}, trays: {}, orders: {}, places: {} });

/** Holds none yet. Rows are written in place, as there are hundreds and a patch has few; each patch gives a new object about them. */
export function heldForecasts(): HeldForecasts {
  let tables = noRows();
  let current = NO_FORECASTS;

  function put(patch: ForecastPatch): void {
    if (patch.isWhole === true) tables = noRows();
    putRows(tables.films, patch.films);
    putRows(tables.trays, patch.trays);
    putRows(tables.orders, patch.orders);
    putRows(tables.places, patch.places);
    const change = patch.change === undefined ? current.change : (patch.change ?? undefined);
    current = { ...tables, atMs: patch.atMs, ...(change !== undefined && { change }) };
  }

  return { current: () => current, put };
}

type Rows<Row> = Readonly<Record<string, Row | null | undefined>>;
function putRows<Row>(table: Record<string, Row>, rows: Rows<Row> = {}): void {
  for (const [key, row] of Object.entries(rows)) {
    if (row === null || row === undefined) delete table[key];
    else table[key] = row;
  }
}
