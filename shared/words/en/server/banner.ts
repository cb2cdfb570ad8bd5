import type { Formats } from "#shared/words/formats.ts";

/** What the server prints once it is running: how to reach it and join. */
export const banner = (format: Formats) => ({
  running: "Traytide is running.",
  practice: (speed: number) =>
    `Traytide is running with a practice kitchen: invented data, clock ${format.number(speed)} times as fast.`,
  rehearsing: "Playing through the practice kitchen's last day…",
  labels: {
    wall: "Wall",
    phones: "Phones",
    start: "Start",
    also: "Also at",
    joinCode: "Join code",
    leadCode: "Lead code",
    data: "Data",
    trust: "Trust",
  },
  leadCode: (code: string) =>
    `${code}   (write it down, it is shown only now: entered in place of the join code, it makes a second or new phone a lead's)`,
  leadCodeShown: "was shown when it was made; for a new one: npm start -- --new-lead-code",
  /** A line each. */
  trust: (main: string) => [
    `To trust this kitchen's certificate, open ${main}/ca.crt on each phone and install it:`,
    "iPhone: Settings > Profile downloaded > Install, then General > About > Certificate trust settings.",
    "Android: Settings > Security > More > Install a certificate > CA certificate.",
    "Computer: import it as a certificate authority in the browser or the system's keychain.",
  ],
  scan: "Point a phone's camera here to join:",
});
