import { Key } from "@solid-primitives/keyed";
import type { Accessor, JSX } from "solid-js";

/**
 * A list of items that are made anew while their elements stay: what a finger is on, and a sheet that is open in a row. `by`: what an
 * item is, whatever else of it changes; several that are the same are told apart by their order.
 */
export function KeyedFor<Item>(props: {
  each: readonly Item[];
  by: (item: Item) => string;
  fallback?: JSX.Element;
  children: (item: Accessor<Item>) => JSX.Element;
}): JSX.Element {
  return (
    <Key each={withKeys(props.each, props.by)} by="key" fallback={props.fallback}>
      {(one) => props.children(() => one().item)}
    </Key>
  );
}

function withKeys<Item>(items: readonly Item[], by: (item: Item) => string): { key: string; item: Item }[] {
  const counts = new Map<string, number>();
  return items.map((item) => {
    const is = by(item);
    const nth = (counts.get(is) ?? 0) + 1;
    counts.set(is, nth);
    return { key: `${is} ${nth}`, item };
  });
}
