import { WordedError } from "#server/words.ts";

/** Which PostgreSQL, and which of the kitchens in it. */
export interface PostgresAddress {
  url: string;
  /** What may be shown and logged: never the password. */
  shown: string;
  kitchen: string;
}

export const USUAL_KITCHEN = "kitchen";
/** It is part of keys and of a channel's name, and read off a screen. */
const KITCHEN_NAME = /^[a-z0-9][a-z0-9-]{0,39}$/;

export const isPostgres = (text: string): boolean => /^postgres(ql)?:\/\//i.test(text);

/** Reads TRAYTIDE_DB and TRAYTIDE_KITCHEN; throws, in words, at what cannot be. */
export function postgresAddress(text: string, kitchen = USUAL_KITCHEN): PostgresAddress {
  if (!KITCHEN_NAME.test(kitchen))
    throw new WordedError(({ server }) => server.postgres.kitchenName(kitchen));
  const url = isPostgres(text) && URL.canParse(text) ? new URL(text) : undefined;
  const database = url?.pathname.slice(1) ?? "";
  // By neither is the text itself shown: it may hold a password.
  if (url === undefined || url.hostname === "" || database === "")
    throw new WordedError(({ server }) => server.postgres.address);
  const port = url.port === "" ? "5432" : url.port;
  return { url: text, shown: `${url.hostname}:${port}/${decodeURIComponent(database)}`, kitchen };
}
