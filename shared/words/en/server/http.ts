import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import type { Formats } from "#shared/words/formats.ts";

/** Of what too many were asked for in a minute. */
export type FloodOf = "requests" | "forecasts" | "advice" | "join-codes" | "kitchen-join-codes" | "backups";

const ROLES: Readonly<Record<Role, string>> = {
  lead: "a lead",
  decorator: "a decorator",
  wall: "a wall",
  sensor: "a sensor",
};
const KINDS = { person: "a person", wall: "a wall", sensor: "a sensor" } as const;

/** Why the server does not do what a request asks. */
export const http = (format: Formats) => ({
  notJoined: "This device has not joined: POST /api/join gives it a token to send as Bearer.",
  notAllowed: (role: Role, allowed: readonly Role[]) =>
    `${format.sentence(ROLES[role])} may not do that: it takes ${format.or(allowed.map((one) => ROLES[one]))}.`,
  wrongCode: "That is not the kitchen's join code: it is on the server's screen.",
  nameTaken: (name: string, kind: keyof typeof KINDS) =>
    `name is taken: ${format.name(name)} is ${KINDS[kind]} here. Choose another.`,
  foreignHost:
    "This server does not go by that name. Use one of the addresses it printed, or add the name to TRAYTIDE_HOSTS.",
  foreignOrigin: "Only pages of this server itself may ask it anything.",
  noSuchPath: (method: string, path: string) => `There is no ${method} ${path}.`,
  noSuchDevice: (deviceId: string) => `deviceId must be a joined device's: there is no ${deviceId}.`,
  noDesign: (designId: string) => `designId must name one of the kitchen's designs: there is no ${designId}.`,
  notJpeg: "body must be a JPEG file.",
  tooLarge: (kB: number) => `The body is too large: it must be at most ${format.number(kB)} kB.`,
  notJson: (detail: string) => `The body is not JSON: ${detail}.`,
  unreadable: (detail: string) => `The request cannot be read: ${detail}.`,
  backupRunning: "A backup is being made already: wait until it is done.",
  noBackups: {
    practice: "A practice kitchen is thrown away, so no backups are made of it.",
    elsewhere: "This kitchen is kept in PostgreSQL, which has backups of its own.",
  },
  failed: "Something failed in the server. Nothing was changed.",
  cannotRead: "Who asks could not be looked up just now. Ask again in a moment.",
  notSaved: "The log could not be written, so nothing was changed. Send it again.",
  closing: "The server is closing. Send it again when it is back.",
  waits: "This device waits to be let in: a lead is asked on their phone.",
  tooMany: {
    requests: "Too many requests from this address: wait a minute.",
    forecasts: "Too many forecasts from this address: wait a minute.",
    advice: "Too many questions from this address: wait a minute.",
    "join-codes": "Too many wrong join codes from this address: wait a minute.",
    "kitchen-join-codes": "Too many wrong join codes were tried in this kitchen: wait a minute.",
    backups: "Too many backups from this address: wait a minute.",
  } satisfies Record<FloodOf, string>,
  nothingHere: "There is nothing here. The start page is at /",
});
