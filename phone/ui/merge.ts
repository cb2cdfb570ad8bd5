/** What a form changed, laid over a thing as it then stands: two leads who edit one thing at once both keep their changes. */

type Table = Readonly<Record<string, unknown>>;

const isTable = (value: unknown): value is Table =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const isTableOrNone = (value: unknown): value is Table | undefined => value === undefined || isTable(value);

/** Equal in what they hold; a field that is undefined counts as one that is not there. */
function isSame(one: unknown, other: unknown): boolean {
  if (one === other) return true;
  if (Array.isArray(one) && Array.isArray(other))
    return one.length === other.length && one.every((item, k) => isSame(item, other[k]));
  return isTable(one) && isTable(other) && keysOf(one, other).every((key) => isSame(one[key], other[key]));
}

const keysOf = (one: Table, other: Table): string[] => [
  ...new Set([...Object.keys(one), ...Object.keys(other)]),
];

/** `stands` with the fields in which `to` differs from `from`, tables in it likewise. A list is one field. */
export function mergeChanges<Thing extends object>(
  stands: Thing,
  from: NoInfer<Thing>,
  to: NoInfer<Thing>,
): Thing {
  return merged(stands as Table, from as Table, to as Table) as Thing;
}

function merged(stands: Table, from: Table, to: Table): Table {
  const now: Record<string, unknown> = { ...stands };
  for (const key of keysOf(from, to)) {
    const [before, after, here] = [from[key], to[key], stands[key]];
    if (isSame(before, after)) continue;
    if (isTable(here) && isTableOrNone(before) && isTableOrNone(after))
      now[key] = merged(here, before ?? {}, after ?? {});
    else if (after === undefined) delete now[key];
    else now[key] = after;
  }
  return now;
}

/** The fields of `to` that differ from `from`. */
export const changed = <Thing extends object>(from: Thing, to: NoInfer<Thing>): Partial<Thing> =>
  Object.fromEntries(
    Object.entries(to).filter(([key, value]) => !isSame((from as Table)[key], value)),
  ) as Partial<Thing>;
