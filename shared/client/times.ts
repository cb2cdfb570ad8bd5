const formats = new Map<string, Intl.DateTimeFormat>();

/** Made once for each time zone and shape: making one costs far more than using it. */
function format(timeZone: string, shape: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${timeZone}/${shape}`;
  let made = formats.get(key);
  if (made === undefined) {
    made = new Intl.DateTimeFormat("en-GB", { timeZone, hourCycle: "h23", ...options });
    formats.set(key, made);
  }
  return made;
}

const HOUR_MINUTE = { hour: "2-digit", minute: "2-digit" } as const;

/** "14:02" in the kitchen's time zone. */
export const clockTime = (atMs: number, timeZone: string): string =>
  format(timeZone, "time", HOUR_MINUTE).format(atMs);

/** "14:11:40", for what a hand has just done. */
export const clockSeconds = (atMs: number, timeZone: string): string =>
  format(timeZone, "seconds", { ...HOUR_MINUTE, second: "2-digit" }).format(atMs);

const dateKey = (atMs: number, timeZone: string): string =>
  format(timeZone, "date", { year: "numeric", month: "2-digit", day: "2-digit" }).format(atMs);

const WEEK_MS = 6 * 86_400_000;

/** "Fri 09:00"; farther than six days from `nowMs`, "Fri 12 Dec 09:00". */
export function dayTime(atMs: number, timeZone: string, nowMs: number): string {
  const day = format(timeZone, "day", { weekday: "short" }).format(atMs);
  const date = format(timeZone, "day month", { day: "numeric", month: "short" }).format(atMs);
  const far = Math.abs(atMs - nowMs) > WEEK_MS;
  return `${day} ${far ? `${date} ` : ""}${clockTime(atMs, timeZone)}`;
}

/** "14:02" on the same day, else as `dayTime`. */
export const soonTime = (atMs: number, timeZone: string, nowMs: number): string =>
  dateKey(atMs, timeZone) === dateKey(nowMs, timeZone)
    ? clockTime(atMs, timeZone)
    : dayTime(atMs, timeZone, nowMs);

/** "14:16–14:22", "14:16–Fri 02:10": earliest to latest. */
export const bandTimes = (
  band: { earliestMs: number; latestMs: number },
  timeZone: string,
  nowMs: number,
): string =>
  `${soonTime(band.earliestMs, timeZone, nowMs)}–${
    dateKey(band.earliestMs, timeZone) === dateKey(band.latestMs, timeZone)
      ? clockTime(band.latestMs, timeZone)
      : soonTime(band.latestMs, timeZone, nowMs)
  }`;
