/** Whether two lists of ids are the same: a memo on the list then wakes no row. */
export const sameList = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((id, k) => id === b[k]);
