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

const names = new Intl.Collator("en", { numeric: true });

/** For sorting by name as people count: "bench 2" before "bench 10". */
export const compareNames = (a: { name: string }, b: { name: string }): number =>
  names.compare(a.name, b.name);

/** In the order of their names. */
export const sortedByName = <Item extends { name: string }>(items: Readonly<Record<string, Item>>): Item[] =>
  Object.values(items).toSorted(compareNames);
