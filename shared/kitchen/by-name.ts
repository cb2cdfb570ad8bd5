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
