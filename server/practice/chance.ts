/** Chance that repeats: the same seed gives the same kitchen. */
export interface Chance {
  /** From 0 to below 1. */
  unit: () => number;
  happens: (share: number) => boolean;
  between: (from: number, to: number) => number;
  /** A whole number, both ends included. */
  whole: (from: number, to: number) => number;
  pick: <Item>(items: readonly [Item, ...Item[]]) => Item;
  /** Normal with mean 0 and standard deviation 1. */
  normal: () => number;
}

/** mulberry32 (public domain), seeded with any whole number. */
export function chanceFrom(seed: number): Chance {
  let state = seed >>> 0;
  const unit = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const between = (from: number, to: number): number => from + (to - from) * unit();
  return {
    unit,
    happens: (share) => unit() < share,
    between,
    whole: (from, to) => Math.floor(between(from, to + 1)),
    pick: (items) => items[Math.floor(unit() * items.length)] ?? items[0],
    normal: () => Math.sqrt(-2 * Math.log(1 - unit())) * Math.cos(2 * Math.PI * unit()),
  };
}

/** A seed for one thing of many, by its name (FNV-1a), so that one person's day does not hang on another's. */
export function seedFor(seed: number, name: string): number {
  let hash = (0x811c9dc5 ^ seed) >>> 0;
  for (const letter of name) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  return hash;
}
