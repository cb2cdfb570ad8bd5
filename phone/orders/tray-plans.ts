/** Most trays one command may add. */
const MOST_AT_ONCE = 100;

/** Cookies by tray, full ones first: 30 by 12 → 12, 12, 6. */
export function splitCookies(cookies: number, perTray: number): number[] {
  const full = Math.floor(cookies / perTray);
  const rest = Math.round(cookies - full * perTray);
  const counts = Array.from({ length: full }, () => perTray);
  return (rest > 0 ? [...counts, rest] : counts).slice(0, MOST_AT_ONCE);
}

/** The first free tray numbers from one on, 1–9999. */
export function freeNumbers(taken: ReadonlySet<number>, from: number, count: number): number[] {
  const free: number[] = [];
  for (let number = Math.max(1, Math.round(from)); number <= 9999 && free.length < count; number += 1)
    if (!taken.has(number)) free.push(number);
  return free;
}
