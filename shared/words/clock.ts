const formatters = new Map<string, Intl.DateTimeFormat>();

/** Monday 0 to Sunday 6, and minutes after midnight, where the kitchen is. `atMs` is ms since 1970, `timeZone` an IANA name. */
export function dayAndMinute(atMs: number, timeZone: string): { day: number; minute: number } {
  let formatter = formatters.get(timeZone);
  if (formatter === undefined) {
    const options = {
      timeZone,
      weekday: "short",
      hour: "2-digit",
      minute: "2-digit",
      hourCycle: "h23",
    } as const;
    formatter = new Intl.DateTimeFormat("en-GB", options);
    formatters.set(timeZone, formatter);
  }
  const parts = formatter.formatToParts(atMs);
  const part = (type: Intl.DateTimeFormatPartTypes): string =>
    parts.find((one) => one.type === type)?.value ?? "";
  return {
    day: ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"].indexOf(part("weekday")),
    minute: Number(part("hour")) * 60 + Number(part("minute")),
  };
}
