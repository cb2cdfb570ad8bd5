import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { goodOn } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { type EventLog, readAll } from "#server/log/event-log.ts";
import type { Words } from "#shared/words/words.ts";
import { csvLine } from "./csv.ts";

type CsvWords = Words["server"]["csv"];
type Column = keyof CsvWords["columns"];
export type Cell = string | number | undefined;
type TrayCell = (tray: Tray, kitchen: Kitchen) => Cell;

export const iso = (atMs: number | undefined): string | undefined =>
  atMs === undefined ? undefined : new Date(atMs).toISOString();

export const nameOf = (kitchen: Kitchen, by: string): string => kitchen.people[by]?.name ?? by;

const cellsIn = (words: CsvWords): Record<Column, TrayCell> => ({
  tray: (tray) => tray.number,
  design: (tray, kitchen) => kitchen.designs[tray.designId]?.name,
  order: (tray, kitchen) => kitchen.orders[tray.orderId]?.name,
  pickUp: (tray, kitchen) => iso(kitchen.orders[tray.orderId]?.pickUpAtMs),
  cookies: (tray) => tray.count,
  stage: (tray) => words.stages[tray.status.stage],
  place: (tray, kitchen) => kitchen.places[tray.placements.at(-1)?.placeId ?? tray.placeId]?.name,
  added: (tray) => iso(tray.addedAtMs),
  firstFlooded: (tray) => iso(tray.films[0]?.clockStartMs),
  packed: ({ status }) => (status.stage === "packed" ? iso(status.atMs) : undefined),
  packedBy: ({ status }, kitchen) => (status.stage === "packed" ? nameOf(kitchen, status.by) : undefined),
  layersLaid: (tray) => tray.films.length,
  heatSets: (tray) => tray.heats.length,
  touchTests: (tray) => tray.films.reduce((sum, film) => sum + film.findings.length, 0),
  risksTaken: (tray) => tray.films.filter((film) => film.risk !== undefined).length,
  good: (tray) => goodOn(tray),
  problems: (tray) =>
    tray.problems.map(({ count, problem }) => `${count} ${words.problems[problem]}`).join("; "),
  problemNotes: (tray) => tray.problems.flatMap(({ note }) => note ?? []).join("; "),
  undone: (tray) => tray.history.filter((entry) => entry.takenBack !== undefined).length,
});

/** Every tray there has been, as CSV: those archived as they were then, then those of now. Times are UTC. */
export function trayRows(log: EventLog, words: CsvWords): AsyncGenerator<string> {
  const columns = Object.keys(words.columns) as Column[];
  const cells = cellsIn(words);
  return traysAsCsv(log, Object.values(words.columns), (tray, kitchen) => [
    columns.map((column) => cells[column](tray, kitchen)),
  ]);
}

/** A header, then the rows of every tray: of those archived as they were then, of the others as they are now. */
export async function* traysAsCsv(
  log: EventLog,
  header: readonly string[],
  rowsOf: (tray: Tray, kitchen: Kitchen) => readonly (readonly Cell[])[],
): AsyncGenerator<string> {
  let kitchen = EMPTY_KITCHEN;
  yield csvLine(header);
  for await (const { event } of readAll(log)) {
    if (event.type === "trays-put-away") {
      for (const id of event.trayIds) {
        const tray = kitchen.trays[id];
        if (tray !== undefined) yield* rowsOf(tray, kitchen).map(csvLine);
      }
    }
    kitchen = evolve(kitchen, event);
  }
  for (const tray of Object.values(kitchen.trays)) yield* rowsOf(tray, kitchen).map(csvLine);
}
