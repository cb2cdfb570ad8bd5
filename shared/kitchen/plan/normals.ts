import type { Normals } from "#shared/drying/uncertainty/joint-scores.ts";
import { normalTail } from "#shared/drying/uncertainty/normal.ts";

/** Draws of the plan: enough that a percentile is within a tenth of a standard deviation. */
export const DRAWS = 200;

/**
 * Normal numbers by name: the quantiles of `DRAWS` equal shares, in an order of the name's own. So each quantity has its exact
 * spread, and a name keeps its numbers from one plan to the next: a promise moves by what happens, not by chance.
 */
export function stratifiedNormals(): Normals {
  const known = new Map<string, Float64Array>();
  return (name) => {
    const kept = known.get(name);
    if (kept !== undefined) return kept;
    const numbers = shuffled(QUANTILES, hashOf(name));
    known.set(name, numbers);
    return numbers;
  };
}

/** FNV-1a over the name's UTF-16 units (Fowler, Noll & Vo, from memory). */
function hashOf(name: string): number {
  let hash = 0x811c9dc5;
  for (let k = 0; k < name.length; k += 1) hash = Math.imul(hash ^ name.charCodeAt(k), 0x01000193);
  return hash;
}

/** A copy in an order of the seed's own (Fisher–Yates on Mulberry32 numbers, from memory). */
function shuffled(values: Float64Array, seed: number): Float64Array {
  const order = values.slice();
  let state = seed;
  for (let last = order.length - 1; last > 0; last -= 1) {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    const at = (((mixed ^ (mixed >>> 14)) >>> 0) % (last + 1)) | 0;
    const value = order[at]!;
    order[at] = order[last]!;
    order[last] = value;
  }
  return order;
}

/** The normal's quantile by bisection: worked out once. */
function quantile(share: number): number {
  let [low, high] = [-8, 8];
  while (high - low > 1e-12) {
    const z = (low + high) / 2;
    if (1 - normalTail(z) < share) low = z;
    else high = z;
  }
  return (low + high) / 2;
}

/** The normal's quantiles of `DRAWS` equal shares, ascending. */
export const QUANTILES = Float64Array.from({ length: DRAWS }, (_, k) => quantile((k + 0.5) / DRAWS));
