import { no, type Decision } from "./deciding.ts";
import type { Table } from "#shared/kitchen/model/refusal.ts";

type Named = Readonly<Record<string, { id: string; name: string }>>;

/** A refusal when another thing of the table has this name already. */
export function nameTaken(
  table: Named,
  { id, name }: { id: string; name: string },
  thing: Table,
): Decision | undefined {
  const twin = Object.values(table).find(
    (one) => one.id !== id && one.name.toLowerCase() === name.toLowerCase(),
  );
  return twin && no("taken", { code: "name-taken", thing, name: twin.name });
}

/** A refusal when a table is full and the thing is new. */
export function tableFull(
  table: Readonly<Record<string, unknown>>,
  id: string,
  most: number,
  thing: Table,
): Decision | undefined {
  if (table[id] !== undefined || Object.keys(table).length < most) return undefined;
  return no("no-room", { code: "table-full", thing, most });
}

/** The numbers of trays, for a refusal to name. */
export const numbersOf = (trays: readonly { number: number }[]): number[] =>
  trays.map(({ number }) => number);
