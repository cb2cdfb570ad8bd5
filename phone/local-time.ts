import { tzOffset } from "@date-fns/tz";
import { momentAt } from "#shared/kitchen/day.ts";

const MIN_MS = 60_000;

/** "2026-12-04T09:00" as an input wants it: the clock on the kitchen's wall, whatever zone the phone is set to. */
export function toLocalInput(atMs: number, timeZone: string): string {
  const shifted = atMs + tzOffset(timeZone, new Date(atMs)) * MIN_MS;
  return new Date(shifted).toISOString().slice(0, 16);
}

/** The moment the kitchen's clock shows this; undefined when it is no date. In the hour that autumn repeats, the first. */
export function fromLocalInput(text: string, timeZone: string): number | undefined {
  // Date.parse makes a date of nearly anything.
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(text)) return undefined;
  const asUtcMs = Date.parse(`${text}:00Z`);
  if (Number.isNaN(asUtcMs)) return undefined;
  return momentAt(asUtcMs, timeZone);
}
