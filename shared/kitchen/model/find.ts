import { sortedByName } from "#shared/collections.ts";
import { aliveTrays, currentDesigns } from "./lookups.ts";
import type { Kitchen, OrderState, Tray } from "./state.ts";
import type { Design, Icing } from "./vocabulary.ts";

/** What is found for a text, each kind at most `FOUND_MOST`. */
export interface Found {
  /** Alive, by number: the one that bears it, then those whose number begins so. */
  trays: readonly Tray[];
  orders: readonly OrderState[];
  designs: readonly Design[];
  icings: readonly Icing[];
}

export const FOUND_MOST = 6;

/** Everything whose number or name has the text: names in any case, with or without their accents. Nothing of an empty text. */
export function findIn(kitchen: Kitchen, text: string): Found {
  const wanted = plain(text.trim());
  const named = <Item extends { name: string }>(items: Readonly<Record<string, Item>>): Item[] => {
    const starts = (item: Item): number => Number(!plain(item.name).startsWith(wanted));
    return sortedByName(items)
      .filter(({ name }) => wanted !== "" && plain(name).includes(wanted))
      .toSorted((a, b) => starts(a) - starts(b))
      .slice(0, FOUND_MOST);
  };
  const numbered = /^\d+$/.test(wanted)
    ? aliveTrays(kitchen).filter(({ number }) => String(number).startsWith(wanted))
    : [];
  return {
    trays: numbered.toSorted((a, b) => a.number - b.number).slice(0, FOUND_MOST),
    orders: named(kitchen.orders),
    designs: named(currentDesigns(kitchen)),
    icings: named(kitchen.icings),
  };
}

const plain = (text: string): string => text.normalize("NFD").replaceAll(/\p{M}/gu, "").toLowerCase();
