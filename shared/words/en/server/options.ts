import type { Formats } from "#shared/words/formats.ts";

/** A number that an option or environment variable asks for, and what was given. */
export interface AskedNumber {
  name: string;
  min: number;
  max: number;
  isWhole: boolean;
  given: string;
}

/** What is wrong with a command line or the environment. */
export const options = (_format: Formats) => ({
  unknown: (option: string) => `There is no option ${option}.`,
  malformed: (option: string) => `${option} was not given the way it must be.`,
  unexpected: (text: string) => `"${text}" is no option: each begins with --.`,
  tooMany: (text: string) => `"${text}" is more than this command takes.`,
  number: ({ name, min, max, isWhole, given }: AskedNumber) =>
    `${name} must be a ${isWhole ? "whole " : ""}number from ${min} to ${max}: it is "${given}".`,
  practiceOnly: (option: string) =>
    `${option} is for the practice kitchen only: npm start -- --practice --speed 60.`,
  proxies:
    "TRAYTIDE_PROXIES must be addresses or networks of reverse proxies, separated by commas: 192.168.1.5 or 10.0.0.0/8.",
  name: (option: string, given: string) =>
    `${option} must be 1 to 63 letters from a to z, digits or hyphens, with no hyphen first or last, or "off": it is "${given}".`,
  joinCode: "TRAYTIDE_JOIN_CODE must be 4 to 20 letters, digits, spaces or hyphens.",
  passwordAlone: "TRAYTIDE_MQTT_PASSWORD needs TRAYTIDE_MQTT_USERNAME beside it.",
  portTaken: (port: number) =>
    `Port ${port} is in use already, perhaps by another Traytide. Choose another: PORT=${port + 1} npm start`,
  portForbidden: (port: number) => `This account may not use port ${port}: choose one above 1023.`,
});
