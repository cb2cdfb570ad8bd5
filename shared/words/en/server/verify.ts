import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import { fileSize } from "#shared/words/sizes.ts";

/** What is wrong with a database file before a single row of it is read. */
export type FileFault =
  | { code: "no-file" }
  | { code: "empty-file" }
  | { code: "no-database" }
  | { code: "truncated"; bytes: number; wholeBytes: number };

/** What is wrong with a kitchen's database. */
export type KitchenFault =
  | FileFault
  /** Made by a newer Traytide. */
  | { code: "newer"; tables: number; known: number }
  | { code: "no-kitchen" }
  /** SQLite's own findings. */
  | { code: "damaged-pages"; detail: readonly string[] }
  | { code: "gap"; afterSeq: number; nextSeq: number }
  /** An event, or its hash, is not what was written. */
  | { code: "altered"; seq: number }
  | { code: "damaged-snapshot"; seq: number }
  /** The log ends before how far it is known to have come. */
  | { code: "cut-short"; seq: number; knownSeq: number };

/** What a database holds, for whoever looks after it. */
export interface KitchenHeld {
  name: string | undefined;
  events: number;
  trays: number;
  latestMs: number | undefined;
  answers: number;
  devices: number;
  photos: number;
}

export interface SalvagedFacts {
  events: number;
  lastSeq: number;
  answers: number;
  answersLeft: number;
  devices: number;
  photos: number;
}

const UTC = (ms: number): string => `${new Date(ms).toISOString().slice(0, 19).replace("T", " ")} UTC`;

/** `npm run verify`, and what every command says of a file it looked through. */
export const verify = (format: Formats) => {
  const events = (fromSeq: number, toSeq: number): string =>
    fromSeq === toSeq ? `event ${fromSeq}` : `events ${fromSeq} to ${toSeq}`;
  return {
    usage: `Looks through a kitchen's database or a backup, and changes nothing in it.

  npm run verify                          the data folder
  npm run verify -- FOLDER                another one
  npm run verify -- FILE                  a backup
  npm run verify -- FILE --salvage NEW    reads what is readable into the new data folder NEW
`,
    size: (bytes: number) => fileSize(format, bytes),
    /** What a file holds, a line each: what it is and how much. */
    held: (held: KitchenHeld): (readonly [string, string])[] => [
      ["Kitchen", held.name ?? "not set up yet"],
      ["Events", format.number(held.events)],
      ["Trays", `${format.number(held.trays)} on the board`],
      ["Newest event", held.latestMs === undefined ? "none" : UTC(held.latestMs)],
      ["Answers", format.number(held.answers)],
      ["Devices", format.number(held.devices)],
      ["Photos", format.number(held.photos)],
    ],
    sizeLabel: "Size",
    hashLabel: "SHA-256",
    logHash: "Log hash",
    fault: (fault: KitchenFault, file: string): string => {
      switch (fault.code) {
        case "no-file":
          return `There is no file ${file}.`;
        case "empty-file":
          return `${file} is empty.`;
        case "no-database":
          return `${file} is no database, so it is neither a kitchen nor a backup of one.`;
        case "truncated":
          return `${file} is cut short: it has ${fileSize(format, fault.bytes)} of ${fileSize(format, fault.wholeBytes)}.`;
        case "newer":
          return `${file} was made by a newer Traytide (tables ${fault.tables}, this one knows ${fault.known}): use that version.`;
        case "no-kitchen":
          return `${file} is a database, but holds no kitchen.`;
        case "damaged-pages":
          return `${file} is damaged: ${fault.detail.slice(0, 3).join("; ")}.`;
        case "gap":
          return `${format.sentence(events(fault.afterSeq + 1, fault.nextSeq - 1))} of ${file} are missing.`;
        case "altered":
          return `Event ${fault.seq} of ${file} is not what was written: its hash does not fit.`;
        case "damaged-snapshot":
          return `The snapshot at event ${fault.seq} of ${file} is damaged; the server works it out anew from the events.`;
        case "cut-short":
          return `The log in ${file} ends at event ${fault.seq}, though ${fault.knownSeq} were saved.`;
        default:
          return unreachable(fault);
      }
    },
    unreadable: (seq: number, reason: string) => `Event ${seq} is passed over by this version: ${reason}`,
    more: (count: number) => `… and ${format.number(count)} more.`,
    whole: (file: string) =>
      `${file} is whole: its pages, its sequence, its hashes, and each event that this version knows.`,
    trySalvage: (file: string) =>
      `To read what is readable into a new data folder: npm run verify -- ${file} --salvage NEWFOLDER`,
    notNew: (folder: string) =>
      `${folder} holds something already: name a folder that is empty or not there yet.`,
    nothingReadable: (file: string) => `No event in ${file} could be read, so nothing was made.`,
    salvaged: (folder: string, facts: SalvagedFacts): string[] => [
      `Made ${folder}: ${format.number(facts.events)} of ${format.number(facts.lastSeq)} events, ${format.number(facts.answers)} answers, ${format.number(facts.devices)} devices, ${format.number(facts.photos)} photos.`,
      "Its events are numbered again from 1, with hashes and an epoch of their own: screens take the whole board anew.",
      ...(facts.answersLeft === 0
        ? []
        : [
            `${format.number(facts.answersLeft)} answers were left out because their events are: a tap of those that is sent again counts anew.`,
          ]),
    ],
    leftOut: (fromSeq: number, toSeq: number, why: "damaged" | "altered"): string =>
      `Left out: ${events(fromSeq, toSeq)}, ${why === "damaged" ? "on damaged pages" : "not what was written, by the hash"}.`,
    lacks: {
      "lead-code": "The lead code could not be read: a new one is shown at the next start.",
      "join-code": "The join code could not be read: a new one is made at the next start.",
      devices: "No device could be read: every phone and wall has to join again.",
    } satisfies Record<"lead-code" | "join-code" | "devices", string>,
    startIt: (folder: string) => `Start it: TRAYTIDE_DATA=${folder} npm start`,
  };
};
