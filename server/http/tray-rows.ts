import { EMPTY_KITCHEN, evolve } from "#shared/kitchen/events/evolve.ts";
import { type Kitchen, type Tray, goodOn } from "#shared/kitchen/model/state.ts";
import { type EventLog, readAll } from "#server/log/event-log.ts";
import { csvLine } from "./csv.ts";

type Column = readonly [name: string, cell: (tray: Tray, kitchen: Kitchen) => string | number | undefined];

const iso = (atMs: number | undefined): string | undefined =>
  atMs === undefined ? undefined : new Date(atMs).toISOString();

const COLUMNS: readonly Column[] = [
  ["tray", (tray) => tray.number],
  ["design", (tray, kitchen) => kitchen.designs[tray.designId]?.name],
  ["order", (tray, kitchen) => kitchen.orders[tray.orderId]?.name],
  ["pick_up", (tray, kitchen) => iso(kitchen.orders[tray.orderId]?.pickUpAtMs)],
  ["cookies", (tray) => tray.count],
  ["stage", (tray) => tray.standing.stage],
  ["place", (tray, kitchen) => kitchen.places[tray.placements.at(-1)?.placeId ?? tray.placeId]?.name],
  ["added", (tray) => iso(tray.addedAtMs)],
  ["first_flooded", (tray) => iso(tray.films[0]?.clockStartMs)],
  ["packed", (tray) => (tray.standing.stage === "packed" ? iso(tray.standing.atMs) : undefined)],
  [
    "packed_by",
    (tray, kitchen) => (tray.standing.stage === "packed" ? nameOf(kitchen, tray.standing.by) : undefined),
  ],
  ["layers_laid", (tray) => tray.films.length],
  ["heat_sets", (tray) => tray.heats.length],
  ["touch_tests", (tray) => tray.films.reduce((sum, film) => sum + film.findings.length, 0)],
  ["risks_taken", (tray) => tray.films.filter((film) => film.risk !== undefined).length],
  ["good", (tray) => goodOn(tray)],
  ["problems", (tray) => tray.problems.map(({ count, problem }) => `${count} ${problem}`).join("; ")],
  ["problem_notes", (tray) => tray.problems.flatMap(({ note }) => note ?? []).join("; ")],
  ["taken_back", (tray) => tray.deeds.filter((deed) => deed.takenBack !== undefined).length],
];

const nameOf = (kitchen: Kitchen, by: string): string => kitchen.people[by]?.name ?? by;

/** Every tray there has been, as CSV: those put away as they were then, then those of now. Times are UTC. */
export async function* trayRows(log: EventLog): AsyncGenerator<string> {
  const line = (tray: Tray, kitchen: Kitchen): string =>
    csvLine(COLUMNS.map(([, cell]) => cell(tray, kitchen)));
  let kitchen = EMPTY_KITCHEN;
  yield csvLine(COLUMNS.map(([name]) => name));
  for await (const { event } of readAll(log)) {
    if (event.type === "trays-put-away") {
      for (const id of event.trayIds) {
        const tray = kitchen.trays[id];
        if (tray !== undefined) yield line(tray, kitchen);
      }
    }
    kitchen = evolve(kitchen, event);
  }
  for (const tray of Object.values(kitchen.trays)) yield line(tray, kitchen);
}
