/** Whether two values made of plain objects, lists and what is neither say the same. */
export function isAlike(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  const [keys, others] = [Object.keys(a), Object.keys(b)];
  return (
    keys.length === others.length &&
    keys.every((key) => Object.hasOwn(b, key) && isAlike(a[key as never], b[key as never]))
  );
}

/** For memos that hold while what they hold says the same. */
export const alike = { equals: isAlike };
