import { hash } from "node:crypto";

/** The running hash of a log in which nothing has happened. */
export const EMPTY_LOG_HASH = "";
/** 128 bits: no two logs of one kitchen come to the same by accident. */
const HASH_CHARACTERS = 32;

/** The running hash after one more event, from the hash before it and the event's text as it is stored. */
export const nextLogHash = (before: string, eventJson: string): string =>
  hash("sha256", `${before}\n${eventJson}`).slice(0, HASH_CHARACTERS);
