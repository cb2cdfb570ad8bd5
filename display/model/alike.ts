/** For memos that hold while what they hold says the same. */
export const alike = { equals: (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b) };
