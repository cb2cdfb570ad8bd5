const formats = new Map<string, Intl.DateTimeFormat>();

/** One formatter a kitchen's zone and shape: making them is dear. */
function formatOf(timeZone: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${timeZone} ${Object.entries(options).flat().join(" ")}`;
  const known = formats.get(key);
  if (known !== undefined) return known;
  const made = new Intl.DateTimeFormat("en-GB", { timeZone, hourCycle: "h23", ...options });
  formats.set(key, made);
  return made;
}

/** "14:02" on the kitchen's wall. `atMs` is ms since 1970, `timeZone` an IANA name. */
export const sayTime = (atMs: number, timeZone: string): string =>
  formatOf(timeZone, { hour: "2-digit", minute: "2-digit" }).format(atMs);

/** "14:02:10". */
export const sayTimeToSecond = (atMs: number, timeZone: string): string =>
  formatOf(timeZone, { hour: "2-digit", minute: "2-digit", second: "2-digit" }).format(atMs);

/** "Fri 09:00". */
export const sayDayAndTime = (atMs: number, timeZone: string): string =>
  `${formatOf(timeZone, { weekday: "short" }).format(atMs)} ${sayTime(atMs, timeZone)}`;

/** Monday 0 to Sunday 6, and minutes after midnight, where the kitchen is. */
export function dayAndMinute(atMs: number, timeZone: string): { day: number; minute: number } {
  const parts = formatOf(timeZone, { weekday: "short", hour: "2-digit", minute: "2-digit" }).formatToParts(
    atMs,
  );
  const part = (type: Intl.DateTimeFormatPartTypes): string =>
    parts.find((one) => one.type === type)?.value ?? "";
  return {
    day: ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"].indexOf(part("weekday")),
    minute: Number(part("hour")) * 60 + Number(part("minute")),
  };
}
