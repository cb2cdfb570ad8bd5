import { momentAt, offsetMs } from "#shared/kitchen/model/calendar.ts";

/** "2026-12-04T09:00" as an input wants it: the clock on the kitchen's wall, whatever zone the phone is set to. */
export function toLocalInput(atMs: number, timeZone: string): string {
  return new Date(atMs + offsetMs(timeZone, atMs)).toISOString().slice(0, 16);
}

/** The moment the kitchen's clock shows this; undefined when it is no date. In the hour that autumn repeats, the first. */
export function fromLocalInput(text: string, timeZone: string): number | undefined {
  // Date.parse makes a date of nearly anything.
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(text)) return undefined;
  const asUtcMs = Date.parse(`${text}:00Z`);
  if (Number.isNaN(asUtcMs)) return undefined;
  return momentAt(asUtcMs, timeZone);
}
