/** "14:32", kitchen time. */
export const clockTime = (atMs: number, timeZone: string): string =>
  formatter(timeZone, { hour: "2-digit", minute: "2-digit" }).format(atMs);

/** "14:32:05", kitchen time: what a hand has just done, or when a screen last heard. */
export const timeToSecond = (atMs: number, timeZone: string): string =>
  formatter(timeZone, { hour: "2-digit", minute: "2-digit", second: "2-digit" }).format(atMs);

/** "Fri 09:00", kitchen time. */
export const dayTime = (atMs: number, timeZone: string): string =>
  `${formatter(timeZone, { weekday: "short" }).format(atMs)} ${clockTime(atMs, timeZone)}`;

const formatters = new Map<string, Intl.DateTimeFormat>();

/** Making a formatter costs a hundred times more than using it. */
function formatter(timeZone: string, fields: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${timeZone} ${Object.keys(fields).join()}`;
  const known = formatters.get(key);
  if (known !== undefined) return known;
  const made = new Intl.DateTimeFormat("en-GB", { ...fields, timeZone, hourCycle: "h23" });
  formatters.set(key, made);
  return made;
}

/** "12 cookies", "1 cookie". */
export const cookies = (count: number): string => `${count} ${count === 1 ? "cookie" : "cookies"}`;

/** "Lantern", "Lantern and Moon", "Lantern, Moon and Star". */
export function listed(names: readonly string[]): string {
  const last = names.at(-1) ?? "";
  return names.length < 2 ? last : `${names.slice(0, -1).join(", ")} and ${last}`;
}

/** First letter up, for the start of a sentence. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
