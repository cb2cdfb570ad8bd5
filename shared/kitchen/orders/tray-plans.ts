import { rangeOf } from "#shared/fields.ts";
import { TrayPlan, TRAYS_AT_ONCE } from "#shared/kitchen/model/vocabulary.ts";

/** Cookies to a tray where there is none to go by. */
export const USUAL_PER_TRAY = 12;

const NUMBERS = rangeOf(TrayPlan.entries.number);

/** Cookies by tray, full ones first: 30 by 12 → 12, 12, 6. As many trays as one command may add. */
export function splitCookies(cookies: number, perTray: number): number[] {
  const full = Math.floor(cookies / perTray);
  const rest = Math.round(cookies - full * perTray);
  const counts = Array.from({ length: full }, () => perTray);
  return (rest > 0 ? [...counts, rest] : counts).slice(0, TRAYS_AT_ONCE);
}

/** The first free tray numbers from one on. */
export function freeNumbers(taken: ReadonlySet<number>, from: number, count: number): number[] {
  const free: number[] = [];
  for (
    let number = Math.max(NUMBERS.min, Math.round(from));
    number <= NUMBERS.max && free.length < count;
    number += 1
  )
    if (!taken.has(number)) free.push(number);
  return free;
}
