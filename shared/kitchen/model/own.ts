/**
 * What a table holds under a key from outside. A plain lookup also finds what every object inherits ("constructor",
 * "toString"), which nobody put there.
 */
export const own = <Value>(table: Readonly<Record<string, Value>>, key: string): Value | undefined =>
  Object.hasOwn(table, key) ? table[key] : undefined;
