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
    name: "By name",
    joinCode: "Join code",
    leadCode: "Lead code",
    data: "Data",
    trust: "Trust",
  },
  leadCode: (code: string) =>
    `${code}   (write it down, it is shown only now: entered in place of the join code, it makes a second or new phone a lead's)`,
  leadCodeShown: "was shown when it was made; for a new one: npm start -- --new-lead-code",
  nameTaken: (host: string, by: string) =>
    `Another machine, ${by}, answers to ${host}: two kitchens cannot have one name. This one goes on without it, its addresses work; ` +
    "start it with another one (npm start -- --name bakery), or stop the other machine first.",
  nameNotPublished: (host: string) =>
    `This network does not let the server answer to ${host}: open it by its address (--name off says nothing of this).`,
  /** A line each. */
  trust: (main: string) => [
    `To trust this kitchen's certificate, open ${main}/ca.crt on each phone and install it:`,
    "iPhone: Settings > Profile downloaded > Install, then General > About > Certificate trust settings.",
    "Android: Settings > Security > More > Install a certificate > CA certificate.",
    "Computer: import it as a certificate authority in the browser or the system's keychain.",
  ],
  scan: "Point a phone's camera here to join:",
});
