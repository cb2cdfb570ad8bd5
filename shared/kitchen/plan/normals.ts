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

/** Buckets a standard deviation, and how many there are: few numbers share one. */
const BUCKETS = { aSd: 32, in: 256 } as const;

/**
 * Of each of `DRAWS` numbers of unit spread how many are below it: sorted by buckets and then by insertion, several times as fast as a
 * general sort.
 */
export function placesOf(numbers: Float64Array): Uint8Array {
  const firsts = new Uint8Array(BUCKETS.in + 1);
  const buckets = new Uint8Array(DRAWS);
  for (let draw = 0; draw < DRAWS; draw += 1) {
    const bucket = Math.floor(numbers[draw]! * BUCKETS.aSd) + BUCKETS.in / 2;
    buckets[draw] = Math.max(0, Math.min(BUCKETS.in - 1, bucket));
    firsts[buckets[draw]! + 1]! += 1;
  }
  for (let bucket = 0; bucket < BUCKETS.in; bucket += 1) firsts[bucket + 1]! += firsts[bucket]!;
  const order = new Uint8Array(DRAWS);
  for (let draw = 0; draw < DRAWS; draw += 1) order[firsts[buckets[draw]!]!++] = draw;
  const places = new Uint8Array(DRAWS);
  for (let place = 1; place < DRAWS; place += 1) {
    const draw = order[place]!;
    let at = place;
    for (; at > 0 && numbers[order[at - 1]!]! > numbers[draw]!; at -= 1) order[at] = order[at - 1]!;
    order[at] = draw;
  }
  for (let place = 1; place < DRAWS; place += 1) {
    const [before, draw] = [order[place - 1]!, order[place]!];
    places[draw] = numbers[before] === numbers[draw] ? places[before]! : place;
  }
  return places;
}
