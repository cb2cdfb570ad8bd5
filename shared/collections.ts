// Tables by id, things by name, numbers in runs.

/**
 * What a table holds under a key from outside. A plain lookup also finds what every object inherits ("constructor",
 * "toString"), which nobody put there.
 */
export const own = <Value>(table: Readonly<Record<string, Value>>, key: string): Value | undefined =>
  Object.hasOwn(table, key) ? table[key] : undefined;

/** Things by a name of theirs, in the order met. */
export function byName<Item>(items: readonly Item[], nameOf: (item: Item) => string): Map<string, Item[]> {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const group = groups.get(nameOf(item));
    if (group === undefined) groups.set(nameOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

/**
 * Worked out once for each first argument, and again once another of them is no longer the same: for pure sums over data that
 * never changes in place, asked for again and again.
 */
export function remembered<Key extends object, Rest extends readonly unknown[], Value>(
  work: (key: Key, ...rest: Rest) => Value,
): (key: Key, ...rest: Rest) => Value {
  const known = new WeakMap<Key, { rest: Rest; value: Value }>();
  return (key, ...rest) => {
    const before = known.get(key);
    if (before !== undefined && before.rest.every((one, k) => one === rest[k])) return before.value;
    const value = work(key, ...rest);
    known.set(key, { rest, value });
    return value;
  };
}

const names = new Intl.Collator("en", { numeric: true });

/** For sorting by name as people count: "bench 2" before "bench 10". */
export const compareNames = (a: { name: string }, b: { name: string }): number =>
  names.compare(a.name, b.name);

/** In the order of their names. */
export const sortedByName = <Item extends { name: string }>(items: Readonly<Record<string, Item>>): Item[] =>
  Object.values(items).toSorted(compareNames);

/** Ascending numbers as runs of neighbours: 27, 28, 30 → [27, 28], [30]. */
export function runsOf(numbers: readonly number[]): number[][] {
  const runs: number[][] = [];
  for (const number of numbers.toSorted((a, b) => a - b)) {
    const run = runs.at(-1);
    if (run !== undefined && number === run.at(-1)! + 1) run.push(number);
    else if (number !== run?.at(-1)) runs.push([number]);
  }
  return runs;
}
