import { momentAt, offsetMs } from "#shared/kitchen/model/calendar.ts";
import { goodOn } from "#shared/kitchen/model/lookups.ts";
import type { Settings } from "#shared/kitchen/model/settings.ts";
import type { Kitchen, OrderState, Tray } from "#shared/kitchen/model/state.ts";
import { DAY_MS } from "#shared/time.ts";

/** Most labels that are drawn at once. */
export const LABELS_AT_ONCE = 200;

/** How far an order's boxes are; the last one holds what is left over. */
export interface BoxCount {
  size: number;
  of: number;
  full: number;
  /** Cookies there are for the next box. */
  inNext: number;
}

/** One box of an order. */
export interface Box {
  /** From 1. */
  number: number;
  of: number;
  cookies: number;
  /** When the first cookie in it was packed; absent until it is full, and where that is not known any more. */
  packedAtMs?: number;
  isFull: boolean;
}

/** Cookies to a box of an order, or undefined where it is not packed in boxes. */
export const boxSize = ({ settings }: Pick<Kitchen, "settings">, order: OrderState): number | undefined =>
  order.boxOf ?? settings.boxOf ?? undefined;

/** `packed`: good cookies of the order that are packed. Those beyond the order fill no box. */
export function boxCount(size: number, { cookies }: OrderState, packed: number): BoxCount {
  const of = Math.ceil(cookies / size);
  if (packed >= cookies) return { size, of, full: of, inNext: 0 };
  const full = Math.floor(packed / size);
  return { size, of, full, inNext: packed - full * size };
}

/** Boxes numbered `from` to `to`, filled in the order in which their cookies were packed. `trays`: the order's. */
export function boxes(
  size: number,
  order: OrderState,
  trays: readonly Tray[],
  { from, to }: { from: number; to: number },
): Box[] {
  const lots = packedLots(order, trays);
  const packed = lots.reduce((sum, { cookies }) => sum + cookies, 0);
  const { of } = boxCount(size, order, packed);
  const found: Box[] = [];
  const last = Math.min(to, of, from + LABELS_AT_ONCE - 1);
  for (let number = Math.max(1, from); number <= last; number += 1) {
    const before = (number - 1) * size;
    const cookies = Math.min(size, order.cookies - before);
    const isFull = packed >= before + cookies;
    const packedAtMs = isFull ? lotAt(lots, before)?.atMs : undefined;
    found.push({ number, of, cookies, isFull, ...(packedAtMs !== undefined && { packedAtMs }) });
  }
  return found;
}

/** Cookies packed together. Of those on trays archived since, or from another order, nobody knows any more when. */
interface Lot {
  cookies: number;
  atMs?: number;
}

function packedLots({ archived = {}, given = {} }: OrderState, trays: readonly Tray[]): Lot[] {
  const counts = [...Object.values(archived), ...Object.values(given)];
  const unknown = Math.max(
    0,
    counts.reduce((sum, count) => sum + count, 0),
  );
  const known = trays.flatMap((tray) =>
    tray.status.stage === "packed" ? [{ cookies: goodOn(tray), atMs: tray.status.atMs }] : [],
  );
  return [{ cookies: unknown }, ...known.toSorted((a, b) => a.atMs - b.atMs)];
}

/** The lot that a cookie is of, by how many were packed before it. */
function lotAt(lots: readonly Lot[], before: number): Lot | undefined {
  let sum = 0;
  return lots.find(({ cookies }) => (sum += cookies) > before);
}

/** Noon of the day up to which the kitchen's rule has cookies best that were packed at this moment; undefined without a rule. */
export function bestBeforeMs(
  { timeZone, bestBeforeDays }: Pick<Settings, "timeZone" | "bestBeforeDays">,
  packedAtMs: number,
): number | undefined {
  if (bestBeforeDays === undefined || bestBeforeDays === null) return undefined;
  const day = Math.floor((packedAtMs + offsetMs(timeZone, packedAtMs)) / DAY_MS);
  return momentAt((day + bestBeforeDays + 0.5) * DAY_MS, timeZone);
}
